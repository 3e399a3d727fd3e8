/**
 * Text for a terminal: what a file holds may be quoted in a message, and a control character in it would break the
 * line, overwrite it or command the terminal. Each becomes U+FFFD; blanks and letters of every script stay.
 */
export function printable(text: string): string {
  return text.replaceAll(/\p{Cc}|\p{Zl}|\p{Zp}/gu, '\u{FFFD}');
}
