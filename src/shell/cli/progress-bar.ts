/** Widths in letters. */
const WIDTH = 30;

/** How far long work has come, on one line of a terminal that is written over; silent where nobody watches. */
export class ProgressBar {
  readonly #stream: NodeJS.WriteStream;
  readonly #what: string;
  readonly #whole: number;
  readonly #begun = performance.now();

  constructor(stream: NodeJS.WriteStream, what: string, whole: number) {
    this.#stream = stream;
    this.#what = what;
    this.#whole = whole;
  }

  show(done: number): void {
    if (!this.#stream.isTTY) return;
    const filled = Math.floor((WIDTH * done) / this.#whole);
    const bar = `${"=".repeat(filled)}${".".repeat(WIDTH - filled)}`;
    this.#stream.write(`\r\u001b[K${done} of ${this.#whole} ${this.#what}  ${bar}${this.#left(done)}`);
  }

  clear(): void {
    if (this.#stream.isTTY) this.#stream.write("\r\u001b[K");
  }

  #left(done: number): string {
    if (done === 0) return "";
    const minutes = ((performance.now() - this.#begun) / 60_000) * (this.#whole / done - 1);
    return minutes < 1 ? "  under a minute left" : `  about ${Math.round(minutes)} min left`;
  }
}
