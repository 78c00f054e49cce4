import { Radio } from "@mantine/core";
import { papersText } from "../english-papers.ts";

/** By what way something was said. */
export function HowChoice({ value, onChange }: { readonly value: string; readonly onChange: (how: string) => void }) {
  const { how, hows } = papersText.people;
  return (
    <Radio.Group label={how} value={value} onChange={onChange} size="lg">
      <div className="choices in-a-row">
        {hows.map((one) => (
          <Radio key={one} value={one} label={one} size="lg" />
        ))}
      </div>
    </Radio.Group>
  );
}
