import { Radio } from "@mantine/core";
import type { Desk } from "../engine/protocol.ts";
import type { Write } from "../job/job-screen.tsx";

/** Which machine of the family it is, by looks: may be said at any time, and unknown is an answer. */
export function OwnVariant({ desk, write }: { readonly desk: Desk; readonly write: Write }) {
  return (
    <div className="form">
      {desk.slots.map((slot) => (
        <Radio.Group
          key={slot.id}
          size="lg"
          label={slot.ask}
          onChange={(variant) => write({ kind: "answered", body: { [slot.id]: variant } })}
        >
          <div className="choices">
            {slot.variants.map(({ id, look }) => (
              <Radio key={id} value={id} size="lg" label={look === "" ? id : `${id}: ${look}`} />
            ))}
          </div>
        </Radio.Group>
      ))}
    </div>
  );
}
