import { Radio, Select, TextInput } from "@mantine/core";
import { type FormEvent, useEffect, useState } from "react";
import type { ShelfPlace, Stocked } from "../../../core/shelf/index.ts";
import { askEngine } from "../engine/client.ts";
import type { KindOffer } from "../engine/protocol.ts";
import { shelfText } from "../english-shelf.ts";

const words = shelfText;

/** New parts that came in. */
export function AddParts({ add }: { readonly add: (stocked: Stocked) => Promise<void> }) {
  const [kinds, setKinds] = useState<readonly KindOffer[]>([]);
  const [part, setPart] = useState<string | null>(null);
  const [where, setWhere] = useState<ShelfPlace>("van");
  const [wrong, setWrong] = useState<Readonly<Record<string, string>>>({});
  useEffect(() => {
    askEngine({ do: "kinds" }).then(setKinds, () => undefined);
  }, []);
  const put = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = event.currentTarget;
    const typed = new FormData(form);
    const whole = (name: string): number => Number(String(typed.get(name) ?? "").trim() || Number.NaN);
    const [count, least] = [whole("count"), whole("least")];
    const isCount = (n: number): boolean => Number.isInteger(n) && n >= 0 && n <= 10_000;
    const faults = {
      ...(part === null ? { part: words.needPart } : {}),
      ...(isCount(count) ? {} : { count: words.needCount }),
      ...(isCount(least) ? {} : { least: words.needCount }),
    };
    setWrong(faults);
    if (part === null || Object.keys(faults).length > 0) return;
    const says = String(typed.get("says") ?? "").trim();
    const name = kinds.find(({ id }) => id === part)?.says ?? part;
    await add({ part, says: says === "" ? name : says, where, by: count, least });
    form.reset();
    setPart(null);
  };
  return (
    <section>
      <h2>{words.add}</h2>
      <form className="form" onSubmit={put} noValidate>
        <Select
          size="lg"
          label={words.part}
          searchable
          limit={40}
          data={kinds.map(({ id, says }) => ({ value: id, label: says }))}
          value={part}
          onChange={setPart}
          error={wrong.part}
        />
        <TextInput size="lg" name="says" label={words.says} autoComplete="off" />
        <Radio.Group label={words.place} value={where} onChange={(place) => setWhere(place as ShelfPlace)} size="lg">
          <div className="choices in-a-row">
            {Object.entries(words.placeWords).map(([value, says]) => (
              <Radio key={value} value={value} label={says} size="lg" />
            ))}
          </div>
        </Radio.Group>
        <TextInput
          size="lg"
          name="count"
          label={words.howMany}
          inputMode="numeric"
          defaultValue="1"
          error={wrong.count}
        />
        <TextInput
          size="lg"
          name="least"
          label={words.least}
          inputMode="numeric"
          defaultValue="0"
          error={wrong.least}
        />
        <button type="submit" className="big-key low">
          {words.put}
        </button>
      </form>
    </section>
  );
}
