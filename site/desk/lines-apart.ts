/** Which lines of two versions of a file stand in only one of them. */

export interface MarkedLine {
  readonly text: string;
  readonly only: boolean;
}

/** Longest common subsequence of lines; files people write are short enough for the plain table. */
export function linesApart(
  one: string,
  other: string,
): { readonly one: readonly MarkedLine[]; readonly other: readonly MarkedLine[] } {
  const a = one.split('\n');
  const b = other.split('\n');
  const width = b.length + 1;
  const common = new Uint32Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      common[i * width + j] =
        a[i] === b[j]
          ? common[(i + 1) * width + j + 1]! + 1
          : Math.max(common[(i + 1) * width + j]!, common[i * width + j + 1]!);
    }
  }
  const left = a.map(text => ({ text, only: true }));
  const right = b.map(text => ({ text, only: true }));
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    if (a[i] === b[j]) {
      left[i++]!.only = false;
      right[j++]!.only = false;
    } else if (common[(i + 1) * width + j]! >= common[i * width + j + 1]!) i++;
    else j++;
  }
  return { one: left, other: right };
}
