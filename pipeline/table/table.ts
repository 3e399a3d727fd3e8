/** A table as data: rendered to HTML, CSV or an overlay elsewhere. */

export interface TableCell {
  /** Ready to print, rounded by its uncertainty. */
  readonly text: string;
  /** Set where the cell is a published number. */
  readonly resultId?: string;
  readonly align?: 'start' | 'end';
  readonly header?: boolean;
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
