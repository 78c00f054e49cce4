import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readJob } from "./read-job.ts";

const HEAD = `format: faultwright-job/1
job: 26-0101
sheet: tumble-dryer
`;

function codes(text: string): string[] {
  const read = readJob(text, "job.yaml");
  return (read.ok ? read.warnings : read.issues).map((issue) => `${issue.line} ${issue.code}`);
}

function job(text: string) {
  const read = readJob(text, "job.yaml");
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

describe("a job file", () => {
  test("is read whole: head, machine, customer and 12 kinds of event in order", () => {
    const read =
      job(`${HEAD}machine: {age: 7 years, new: 650, answers: {air: condenser}, differs: [cut-out absent], plate: {heater.P: 2400 W}}
shop: demo-shop
customer: {authority: 250}
complaint: "turns but stays cold"
events:
  - told: {drum turns: "yes", heat: cold}
  - heard: {hums only: "no"}
    at: 3
  - answered: {stages: two}
  - looked: {at: heater terminals, found: bad}
  - opened: [top, back]
  - isolated: two-pole tester
    at: 14:20
  - measured: {from: X3.1, to: X3.3, shows: 26.4, meter: handheld-6000, leads: nulled, hands: {door: 1}, pulled: [X3], hot: 40}
    at: 14:27
  - counted: {from: door.a, to: door.b, good: 19, of: 20}
  - cannot: {step: "at:X3", why: no room}
  - did: {remedy: new, on: heater, worked: "no", price: 85}
  - why: {one-shot: lint}
  - withdraws: {event: 3}
`);
    expect(read.machine.ageYears).toBe(7);
    expect(read.machine.replacementPrice).toBe(650);
    expect(read.machine.plate.get("heater.P")?.text).toBe("2400 W");
    expect(read.customer.authority).toBe(250);
    expect(read.events.map((event) => event.kind)).toEqual([
      "told",
      "heard",
      "answered",
      "looked",
      "opened",
      "isolated",
      "measured",
      "counted",
      "cannot",
      "did",
      "why",
      "withdraws",
    ]);
    expect(read.events.map((event) => event.id).slice(0, 2)).toEqual(["e1", "e2"]);
    // A clock counts from the first time written.
    expect(read.events[5]?.atMinutes).toBe(0);
    expect(read.events[6]?.atMinutes).toBe(7);
    const measured = read.events[6];
    expect(measured?.kind === "measured" && measured.readings).toEqual([
      { quantity: "ohms", from: "X3.1", to: "X3.3", joinedWith: [], shown: { kind: "value", value: 26.4, step: 0.1 } },
    ]);
    expect(read.events[11]).toMatchObject({ kind: "withdraws", event: "e3" });
  });

  test("takes several readings typed in one go: by pair, and 3 in a row for 3 pairs", () => {
    const read = job(`${HEAD}events:
  - measured: {at: X3, shows: {1-3: 26.4, 1-2: OL}}
  - measured: {at: X3, pairs: [1-2, 1-3, 2-3], shows: 26 ol 3k8}
  - measured: {volts: 228 V, from: X3.1, to: X3.3, in: heat}
  - measured: {watts: 1250 W, in: heat, meter: plug-in}
  - measured: {cause: lint, what: load rise, shows: 12}
  - measured: {from: X3.1, to: X3.3, shows: beeps}
`);
    const readings = read.events.flatMap((event) => (event.kind === "measured" ? event.readings : []));
    expect(
      readings.map((reading) => `${reading.quantity} ${reading.from ?? ""} ${reading.to ?? ""} ${reading.shown.kind}`),
    ).toEqual([
      "ohms X3.1 X3.3 value",
      "ohms X3.1 X3.2 over limit",
      "ohms X3.1 X3.2 value",
      "ohms X3.1 X3.3 over limit",
      "ohms X3.2 X3.3 value",
      "volts X3.1 X3.3 value",
      "watts   value",
      "number   value",
      "ohms X3.1 X3.3 word",
    ]);
  });

  test("keeps an event of a kind it does not know, and warns with its line", () => {
    const read = readJob(`${HEAD}events:\n  - photographed: back\n  - tolled: {heat: cold}\n`, "job.yaml");
    expect(read.ok).toBe(true);
    if (!read.ok) return;
    expect(read.value.events.map((event) => event.kind)).toEqual(["unknown", "unknown"]);
    expect(read.warnings.map((issue) => `${issue.line} ${issue.code}`)).toEqual([
      "5 job.unknown-event",
      "6 job.unknown-event",
    ]);
    expect(read.warnings[1]?.hint).toBe("Did you mean told?");
  });

  test("tells all 10 of its faults in one go, each with its line", () => {
    const bad = `format: faultwright-job/2
job: 26-0101
machin: {age: 7}
machine: {age: minus one}
customer: {authority: NaN}
events:
  - looked: {at: heater, found: maybe}
  - measured: {from: X3.1, shows: 26}
  - measured: {from: X3.1, to: X3.2, shows: 26 V}
  - measured: {from: X3.1, to: X3.2, shows: -5}
  - counted: {from: a, to: b, good: 21, of: 20}
`;
    expect(codes(bad)).toEqual([
      "1 job.format",
      "3 read.unknown-key",
      "1 read.missing",
      "5 read.number",
      "4 job.age",
      "7 read.choice",
      "8 job.points",
      expect.stringMatching(/^9 /),
      expect.stringMatching(/^10 /),
      "11 read.number",
    ]);
  });

  test("refuses ohms on a live machine and volts with the plug out", () => {
    expect(codes(`${HEAD}events:\n  - measured: {from: a, to: b, ohms: 26, in: heat}\n`)).toEqual(["5 job.ohms-live"]);
    expect(codes(`${HEAD}events:\n  - measured: {from: a, to: b, volts: 230}\n`)).toEqual(["5 job.live-dead"]);
    expect(codes(`${HEAD}events:\n  - measured: {watts: 100, state: plug out, in: heat}\n`)).toContain("5 job.state");
  });

  test("refuses two events in one, and 2 readings for 3 pairs", () => {
    expect(codes(`${HEAD}events:\n  - told: {heat: cold}\n    seen: {heat: cold}\n`)).toEqual(["6 job.two-events"]);
    expect(codes(`${HEAD}events:\n  - measured: {at: X3, pairs: [1-2, 1-3, 2-3], shows: 26 OL}\n`)).toEqual([
      "5 job.pairs",
    ]);
  });

  test("never throws, whatever 300 mutations do to it (seed 11)", () => {
    const good = `${HEAD}machine: {age: 7 years, answers: {air: condenser}}\nevents:\n  - told: {heat: cold}\n  - measured: {at: X3, shows: {1-2: 26.4}}\n  - did: {remedy: new, on: heater}\n`;
    fc.assert(
      fc.property(fc.nat(good.length - 1), fc.string({ maxLength: 3 }), fc.nat(5), (at, put, cut) => {
        const read = readJob(good.slice(0, at) + put + good.slice(at + cut), "job.yaml");
        expect(typeof read.ok).toBe("boolean");
        if (!read.ok) expect(read.issues.length).toBeGreaterThan(0);
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  test("refuses 3 MB at once", () => {
    expect(codes(`${HEAD}complaint: "${"x".repeat(3_000_000)}"`)).toEqual(["undefined tree.too-long"]);
  });
});
