import { existsSync } from "node:fs";
import { join } from "node:path";
import { accept, type Checked, refuse } from "../../core/issue/index.ts";
import { type Meter, readMeter } from "../../core/meter/index.ts";
import { didYouMean, type Kind } from "../../core/part/index.ts";
import { readShop, type Shop } from "../../core/remedy/index.ts";
import { type Library, readLibrary, readSheet, type Sheet } from "../../core/sheet/index.ts";
import { dataFolder, dataTexts, readText } from "./files.ts";
import { need } from "./outcome.ts";

/** Part kinds, houses and shared pieces that ship with the program. */
export function shippedLibrary(): Library {
  return need(readLibrary(dataTexts("kinds"), dataTexts("houses"), dataTexts("pieces")));
}

/** Instruments that ship with the program, by id. */
export function shippedMeters(): ReadonlyMap<string, Meter> {
  return new Map([...dataTexts("meters")].map(([id, text]) => [id, need(readMeter(text, `data/meters/${id}.yaml`))]));
}

/** A shop's costs: a shipped one by name. */
export function shopNamed(name: string): Shop {
  const texts = dataTexts("costs");
  const text = texts.get(name);
  if (text === undefined) return need(unknownName("shop.unknown", name, "a cost file by name", texts.keys()));
  return need(readShop(text, name, `data/costs/${name}.yaml`));
}

/** A wiring sheet: a file the user names, or a shipped one by name. */
export function sheetNamed(nameOrFile: string, library: Library): Sheet {
  if (existsSync(nameOrFile)) return need(readSheet(need(readText(nameOrFile)), nameOrFile, library));
  const texts = dataTexts("sheets");
  const text = texts.get(nameOrFile);
  if (text === undefined)
    return need(unknownName("sheet.unknown", nameOrFile, "a sheet file, or a shipped sheet by name", texts.keys()));
  return need(readSheet(text, join(dataFolder(), "sheets", `${nameOrFile}.yaml`), library));
}

function unknownName(code: string, found: string, expected: string, known: Iterable<string>): Checked<never> {
  const names = [...known];
  const hint = didYouMean(found, names) ?? `Known: ${names.join(", ")}.`;
  return refuse({ code, severity: "error", at: [], found: `"${found}"`, expected, hint });
}

/** A part kind that ships, by name. */
export function kindNamed(name: string, { kinds }: Library): Checked<Kind> {
  const kind = kinds.get(name);
  return kind === undefined ? unknownName("kind.unknown", name, "a kind of part by name", kinds.keys()) : accept(kind);
}

/** `slot=variant` pairs, or others with an equals sign, as typed on the command line. */
export function parseAnswers(
  pairs: readonly string[],
  expected = "slot=variant",
  hint = 'Write for example --answer "stages=two".',
): Checked<ReadonlyMap<string, string>> {
  const answers = new Map<string, string>();
  for (const pair of pairs) {
    const at = pair.indexOf("=");
    if (at < 1) {
      return refuse({
        code: "answer.form",
        severity: "error",
        at: [],
        found: `"${pair}"`,
        expected,
        hint,
      });
    }
    answers.set(pair.slice(0, at).trim(), pair.slice(at + 1).trim());
  }
  return accept(answers);
}
