/** One text as it stood in the file; nothing turns it into a number, a date or a yes. */
export interface TreeText {
  readonly is: "text";
  readonly text: string;
  readonly line: number;
}

export interface TreeMap {
  readonly is: "map";
  readonly line: number;
  /** In the order of the file. */
  readonly entries: ReadonlyMap<string, TreeEntry>;
}

export interface TreeEntry {
  /** Line of the key. */
  readonly line: number;
  readonly value: Tree;
  /** File it stands in, where that is another than the rest of the tree's. */
  readonly file?: string;
  /** How many entries one template made, this one included. */
  readonly copies?: number;
}

export interface TreeList {
  readonly is: "list";
  readonly line: number;
  readonly items: readonly Tree[];
}

export type Tree = TreeText | TreeMap | TreeList;
