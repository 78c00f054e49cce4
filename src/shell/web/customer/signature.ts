import type { Photo } from "../../store/database.ts";
import { hashOf } from "../photo/shrink-photo.ts";

/** One line drawn without lifting: points in the pad's own units. */
export type Stroke = readonly (readonly [x: number, y: number])[];

/** The pad's own units, however large it stands on the glass. */
export const PAD = { width: 600, height: 240 } as const;

/** A stroke as path data (SVG 2, 9.3); a tap is a dot. */
export function pathOf(stroke: Stroke): string {
  const points = stroke.length === 1 ? [...stroke, ...stroke] : stroke;
  return points.map(([x, y], index) => `${index === 0 ? "M" : "L"}${x} ${y}`).join("");
}

/** The strokes as a drawing, black on white, kept like a photo: named by the SHA-256 of its bytes. */
export async function drawingOf(strokes: readonly Stroke[]): Promise<Photo> {
  const { width, height } = PAD;
  const paths = strokes.map((stroke) => `<path d="${pathOf(stroke)}"/>`).join("");
  const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"><rect width="${width}" height="${height}" fill="#fff"/><g fill="none" stroke="#000" stroke-width="3" stroke-linecap="round" stroke-linejoin="round">${paths}</g></svg>`;
  const blob = new Blob([drawing], { type: "image/svg+xml" });
  return { hash: await hashOf(blob), blob };
}
