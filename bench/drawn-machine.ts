/** A network like a machine's, drawn by seed: supply, branches of joints and parts between the lines, leaks to chassis. */
export interface DrawnMachine {
  readonly nodes: number;
  readonly elements: readonly { readonly a: number; readonly b: number }[];
  /** Line and neutral against the protective conductor (node 0). */
  readonly sources: readonly [number, number];
  /** Siemens at 50 Hz; 0 is open. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Elements a fault may sit in: joints and parts. */
  readonly faulty: readonly number[];
}

/** Park–Miller: enough chance for a bench. */
export function dice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

export function drawMachine(seed: number, branches: number): DrawnMachine {
  const roll = dice(seed);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(roll() * from.length)];
  const elements: { a: number; b: number }[] = [];
  const re: number[] = [];
  const im: number[] = [];
  const faulty: number[] = [];
  let nodes = 5;
  const add = (a: number, b: number, siemens: number, susceptance = 0): number => {
    re.push(siemens);
    im.push(susceptance);
    return elements.push({ a, b }) - 1;
  };
  const [earth, line, neutral, lineIn, neutralIn] = [0, 1, 2, 3, 4];
  const sources = [add(line, earth, 0), add(neutral, earth, 0)] as const;
  add(line, lineIn, 4);
  add(neutral, neutralIn, 50);
  const chassis = nodes++;
  faulty.push(add(chassis, earth, 10));
  add(lineIn, neutralIn, 1e-6, 150e-6);
  add(lineIn, chassis, 1e-9, 1.5e-6);
  add(neutralIn, chassis, 1e-9, 1.5e-6);
  const lines = [lineIn];
  const neutrals = [neutralIn];
  for (let branch = 0; branch < branches; branch++) {
    let at = pick(lines);
    const parts = 3 + Math.floor(roll() * 6);
    for (let part = 0; part < parts; part++) {
      const next = nodes++;
      faulty.push(add(at, next, roll() < 0.6 ? 50 : 10 ** (-roll() * 5)));
      if (roll() < 0.5) add(next, chassis, 1e-9);
      if (roll() < 0.15) faulty.push(add(at, next, 0, 5e-6));
      if (roll() < 0.2) lines.push(next);
      at = next;
    }
    const last = nodes++;
    faulty.push(add(at, last, 0.04), add(last, pick(neutrals), 50));
    if (roll() < 0.3) neutrals.push(last);
  }
  return { nodes, elements, sources, re: Float64Array.from(re), im: Float64Array.from(im), faulty };
}
