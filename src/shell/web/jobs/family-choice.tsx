import { Radio } from "@mantine/core";
import { type ReactNode, useEffect, useState } from "react";
import { askEngine } from "../engine/client.ts";
import type { Family } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { MachineDrawing } from "./machine-drawing.tsx";

/** Which family the machine is of; what may be chosen besides stands after the families. */
export function FamilyChoice(props: {
  readonly value: string;
  readonly onChange: (name: string) => void;
  readonly error?: string | undefined;
  readonly children?: ReactNode;
}) {
  const { value, onChange, error, children } = props;
  const [families, setFamilies] = useState<readonly Family[]>([]);
  useEffect(() => {
    askEngine({ do: "families" }).then(setFamilies);
  }, []);
  return (
    <Radio.Group label={text.newJob.machine} value={value} onChange={onChange} error={error} size="lg">
      <div className="machines">
        {families.map(({ name, title }) => (
          <MachineCard key={name} name={name} title={title} />
        ))}
        {children}
      </div>
    </Radio.Group>
  );
}

/** One machine that may be chosen, with a small drawing. */
export function MachineCard({ name, title }: { readonly name: string; readonly title: string }) {
  return (
    <Radio.Card value={name} className="machine">
      <MachineDrawing family={name} />
      <span>{title}</span>
    </Radio.Card>
  );
}
