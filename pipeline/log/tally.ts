/** Counts one kind of fault and remembers the first lines it was seen on. */

const LINES_TOLD = 3;

export class Tally {
  count = 0;
  readonly firstLines: number[] = [];

  add(line: number): void {
    this.count++;
    if (this.firstLines.length < LINES_TOLD) this.firstLines.push(line);
  }
}
