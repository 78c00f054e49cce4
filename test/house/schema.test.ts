import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { parse, stringify } from "yaml";
import { seeded } from "../../src/core/chance/index.ts";
import { schemaOf, WRITTEN_FORMS, type WrittenForm } from "../../src/core/ledger/index.ts";
import { shippedLibrary } from "../machines/shipped.ts";
import { issuesOf, writtenFiles } from "./forms.ts";

const library = shippedLibrary();
const files = writtenFiles();
const forms = WRITTEN_FORMS;

function validator(form: WrittenForm, withLibrary = true): ValidateFunction {
  return new Ajv2020({ strict: true, allowUnionTypes: true, strictRequired: false, allErrors: true }).compile(
    schemaOf(form, withLibrary ? library : undefined),
  );
}
const validators = new Map(forms.map((form) => [form, validator(form)]));

function faultsOf(form: WrittenForm, value: unknown): readonly string[] {
  const validate = validators.get(form);
  if (validate === undefined) throw new Error(`no schema of a ${form}`);
  return faults(validate, value);
}

function faults(validate: ValidateFunction, value: unknown): readonly string[] {
  if (validate(value)) return [];
  return (validate.errors ?? []).map(
    (error) => `${error.instancePath} ${error.message ?? ""} ${JSON.stringify(error.params)}`,
  );
}

describe("the schemas that editors use", () => {
  test.each(forms.flatMap((form) => [...files[form]].map(([file, text]) => [form, file, text] as const)))(
    "the %s %s is valid",
    (form, _file, text) => {
      expect(faultsOf(form, parse(text))).toEqual([]);
    },
  );

  test("a sheet is valid without a library too", () => {
    const bare = validator("sheet", false);
    for (const text of files.sheet.values()) expect(faults(bare, parse(text))).toEqual([]);
  });

  test("a kind, a rating and a pin are completed by name, and a word that is none of them is refused", () => {
    const line = (part: Record<string, unknown>): unknown => ({
      format: "faultwright-sheet/1",
      parts: { heater: part },
    });
    const good = { kind: "heater", P: "2 kW", s1: "a", common: "b", case: "case" };
    expect(faultsOf("sheet", line(good))).toEqual([]);
    expect(faultsOf("sheet", line({ ...good, kind: "heatr" })).join()).toContain("allowed values");
    expect(faultsOf("sheet", line({ ...good, Watts: "2 kW" })).join()).toContain('"Watts"');
    expect(faultsOf("sheet", line({ ...good, s1x: "a" })).join()).toContain('"s1x"');
  });
});

describe("a misspelt key", () => {
  // Both ways: what the reader calls unknown the schema refuses, and what the schema refuses the reader refuses.
  const most = { sheet: 60, piece: 200, kind: 500, job: 500, meter: 200, costs: 200 } as const;
  test.each(forms)("of a %s fails in the reader and in the schema alike, wherever it stands", (form) => {
    const random = seeded(form.length);
    const tried = [...files[form]]
      .filter(([file]) => form !== "sheet" || file.startsWith("test/"))
      .flatMap(([file, text]) => keyPaths(parse(text)).map((path) => ({ file, text, path })))
      // What is in a piece's sections is read with the sheet that uses it.
      .filter(({ path }) => form !== "piece" || path.length === 1)
      // What an `if:` of a kind takes out by default is read where a rating brings it back.
      .filter(({ text, path }) => form !== "kind" || !isConditional(parse(text), path));
    const some =
      tried.length <= most[form]
        ? tried
        : Array.from({ length: most[form] }, () => tried[Math.floor(random.uniform() * tried.length)]);
    let refused = 0;
    const disagreements: string[] = [];
    for (const one of some) {
      if (one === undefined) continue;
      const misspelt = withMisspelt(parse(one.text), one.path);
      const issues = issuesOf(form, stringify(nothingAsEmpty(misspelt)), one.file, library);
      const unknown = issues.some(({ code }) => code === "read.unknown-key" || code === "sheet.part.word");
      const isError = issues.some(({ severity }) => severity === "error");
      const isInvalid = faultsOf(form, misspelt).length > 0;
      if (unknown) refused++;
      if ((unknown && !isInvalid) || (isInvalid && !isError)) {
        disagreements.push(
          `${one.file} ${one.path.join(".")}: reader ${unknown ? "refuses" : "takes"}, schema ${isInvalid ? "refuses" : "takes"}`,
        );
      }
    }
    expect(disagreements).toEqual([]);
    expect(refused).toBeGreaterThan(some.length / 10);
  });
});

type Path = readonly (string | number)[];

/** Every key of a document, by the path that leads to it. */
function keyPaths(value: unknown, path: Path = []): readonly Path[] {
  if (Array.isArray(value)) return value.flatMap((item, index) => keyPaths(item, [...path, index]));
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, inner]) => [[...path, key], ...keyPaths(inner, [...path, key])]);
}

/** Does the path lead through a map that says `if:`? */
function isConditional(value: unknown, [first, ...rest]: Path): boolean {
  if (value === null || typeof value !== "object" || first === undefined) return false;
  if ("if" in value && first !== "if") return true;
  return isConditional(Array.isArray(value) ? value[Number(first)] : Reflect.get(value, first), rest);
}

function withMisspelt(value: unknown, path: Path): unknown {
  const [first, ...rest] = path;
  if (Array.isArray(value)) return value.map((item, index) => (index === first ? withMisspelt(item, rest) : item));
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => {
      if (key !== first) return [key, inner];
      return rest.length === 0 ? [`${key}q`, inner] : [key, withMisspelt(inner, rest)];
    }),
  );
}

/** A key with nothing behind it is written so, not as `null`. */
function nothingAsEmpty(value: unknown): unknown {
  if (value === null) return "";
  if (Array.isArray(value)) return value.map(nothingAsEmpty);
  if (typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, nothingAsEmpty(inner)]));
}
