/** Long work cut into pieces, so that whoever has it done may turn to something else between two of them. */
export type Pieces<T> = Generator<undefined, T>;

/** Does all the pieces, one after the other, and gives what they come to. */
export function toItsEnd<T>(work: Pieces<T>): T {
  for (;;) {
    const piece = work.next();
    if (piece.done === true) return piece.value;
  }
}
