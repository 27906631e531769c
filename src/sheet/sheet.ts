/** Rows of cells under a head. In a narrow list (`isList`) a print may set its rows in several columns side by side, read downwards. */
export interface SheetTable {
  readonly kind: 'table';
  readonly id: TableId;
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly isList: boolean;
}

export type SheetBlock =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Things with a name each. */
  | { readonly kind: 'facts'; readonly rows: readonly (readonly [label: string, value: string])[] }
  | SheetTable;

export type TableId =
  | 'yarns' | 'swatches' | 'glance' | 'changes' | 'cast-on' | 'gather' | 'turn' | 'shift-to' | 'shift-from'
  | 'heel-in' | 'heel-out' | 'toe' | 'toe-in' | 'toe-out' | 'join' | 'measures' | 'other-toe' | 'sizes';

export type PartId =
  | 'sock' | 'materials' | 'swatch' | 'care' | 'glance' | 'castOn' | 'leg' | 'turn' | 'ankle' | 'heel' | 'foot' | 'toe' | 'closing' | 'finish' | 'other' | 'sizes';

export interface SheetPart {
  readonly id: PartId;
  readonly title: string;
  /** Of a part that is knitted: the counter before its first pass and after its last, and the carriage's side then. */
  readonly at: readonly (readonly [label: string, value: string])[];
  readonly blocks: readonly SheetBlock[];
}

/** A sock to be knitted from paper: what to do in words and tables, as plain data. */
export interface Sheet {
  readonly title: string;
  readonly subtitle: string;
  readonly parts: readonly SheetPart[];
}

export const text = (words: string): SheetBlock => ({ kind: 'text', text: words });
