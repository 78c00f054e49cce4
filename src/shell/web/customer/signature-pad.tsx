import { type PointerEvent, useState } from "react";
import { customerText } from "../english-customer.ts";
import { PAD, pathOf, type Stroke } from "./signature.ts";

/** Where a name is drawn. Who cannot draw has the other answers below it. */
export function SignaturePad(props: {
  readonly strokes: readonly Stroke[];
  readonly onChange: (strokes: readonly Stroke[]) => void;
}) {
  const { strokes, onChange } = props;
  const [drawn, setDrawn] = useState<Stroke>();
  const begin = (event: PointerEvent<SVGSVGElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    setDrawn([pointOf(event)]);
  };
  const goOn = (event: PointerEvent<SVGSVGElement>) => {
    const point = pointOf(event);
    setDrawn((before) => (before === undefined ? undefined : [...before, point]));
  };
  const lift = () => {
    if (drawn !== undefined) onChange([...strokes, drawn]);
    setDrawn(undefined);
  };
  const all = drawn === undefined ? strokes : [...strokes, drawn];
  return (
    <svg
      className="pad"
      viewBox={`0 0 ${PAD.width} ${PAD.height}`}
      role="img"
      aria-label={customerText.pad}
      onPointerDown={begin}
      onPointerMove={goOn}
      onPointerUp={lift}
      onPointerCancel={lift}
    >
      <line x1={20} x2={PAD.width - 20} y1={PAD.height - 50} y2={PAD.height - 50} />
      {all.length === 0 && (
        <text x={PAD.width / 2} y={PAD.height / 2}>
          {customerText.pad}
        </text>
      )}
      {all.map((stroke, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: strokes are only added at the end
        <path key={index} d={pathOf(stroke)} />
      ))}
    </svg>
  );
}

/** Where the finger is, in the pad's own units, to a tenth. */
function pointOf({ currentTarget, clientX, clientY }: PointerEvent<SVGSVGElement>): readonly [number, number] {
  const { left, top, width, height } = currentTarget.getBoundingClientRect();
  const tenth = (value: number): number => Math.round(value * 10) / 10;
  return [tenth(((clientX - left) / width) * PAD.width), tenth(((clientY - top) / height) * PAD.height)];
}
