/** A table as data: rendered to HTML, CSV or an overlay elsewhere. */

export interface TableCell {
  /** Ready to print, rounded by its uncertainty. */
  readonly text: string;
  /** Of a published number: where its workings stand, from the site's root; two for a median between two attempts. */
  readonly workings?: readonly string[];
  readonly align?: 'start' | 'end';
  readonly header?: boolean;
  /** Where the text is in another language than the table. */
  readonly lang?: string;
}

export interface Table {
  readonly id: string;
  /** Says what the table holds, the start rule and n. */
  readonly caption: string;
  readonly columns: readonly {
    readonly label: string;
    readonly unit?: string;
    readonly align: 'start' | 'end';
  }[];
  readonly rows: readonly (readonly TableCell[])[];
  readonly notes: readonly string[];
}
