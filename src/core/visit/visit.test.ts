import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { momentOf, readJob } from "../ledger/index.ts";
import { type CalendarVisit, calendarEntry, contactCard, customerCard, visitEntry, visitsOf } from "./index.ts";

// Read back by ical.js, an independent reader of both standards.

const visit: CalendarVisit = {
  uid: "26-0101-1@ferrybank.example",
  sequence: 0,
  isCancelled: false,
  begins: momentOf("2026-03-04T10:30+01:00") ?? 0,
  ends: momentOf("2026-03-04T11:30+01:00") ?? 0,
  made: momentOf("2026-03-01T08:00Z") ?? 0,
  summary: "Ferrybank workshop: tumble dryer",
  place: "3 Ferry Lane, 00017 Ostermoor",
  description: 'stays cold; "hums"\nring twice, \\ mind the dog',
  organizer: { name: "Ferrybank workshop", email: "workshop@ferrybank.example" },
};

function eventOf(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  const found = calendar.getFirstSubcomponent("vevent");
  if (found === null) throw new Error("no event");
  return { calendar, event: new ICAL.Event(found), component: found };
}

const octets = (line: string): number => new TextEncoder().encode(line).length;

/** Both standards: lines end in CR LF, none is longer than 75 octets, and no letter is cut. */
function expectLawfulLines(text: string): void {
  expect(text.endsWith("\r\n")).toBe(true);
  expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  expect(Math.max(...text.split("\r\n").map(octets))).toBeLessThanOrEqual(75);
  expect(new TextDecoder("utf-8", { fatal: true }).decode(new TextEncoder().encode(text))).toBe(text);
}

describe("a calendar entry (RFC 5545)", () => {
  test("is read back whole", () => {
    const text = calendarEntry(visit);
    const { calendar, event, component } = eventOf(text);
    expectLawfulLines(text);
    expect(calendar.getFirstPropertyValue("version")).toBe("2.0");
    expect(calendar.getFirstPropertyValue("method")).toBe("PUBLISH");
    expect(event.uid).toBe(visit.uid);
    expect(event.sequence).toBe(0);
    expect(event.startDate.toString()).toBe("2026-03-04T09:30:00Z");
    expect(event.endDate.toString()).toBe("2026-03-04T10:30:00Z");
    expect(event.summary).toBe(visit.summary);
    expect(event.location).toBe(visit.place);
    expect(event.description).toBe(visit.description);
    expect(component.getFirstPropertyValue("dtstamp")?.toString()).toBe("2026-03-01T08:00:00Z");
    expect(component.getFirstPropertyValue("organizer")).toBe("mailto:workshop@ferrybank.example");
    expect(component.getFirstPropertyValue("status")).toBe("CONFIRMED");
  });

  test("cancelled it names the same visit, counted on, and takes it out (RFC 5546, 3.2.5)", () => {
    const { calendar, event, component } = eventOf(calendarEntry({ ...visit, sequence: 2, isCancelled: true }));
    expect(calendar.getFirstPropertyValue("method")).toBe("CANCEL");
    expect([event.uid, event.sequence]).toEqual([visit.uid, 2]);
    expect(component.getFirstPropertyValue("status")).toBe("CANCELLED");
  });

  test("without an address there is no organizer, and no method that would ask for one", () => {
    const { organizer: _organizer, ...alone } = visit;
    const { calendar, component } = eventOf(calendarEntry(alone));
    expect(calendar.getFirstPropertyValue("method")).toBeNull();
    expect(component.getFirstPropertyValue("organizer")).toBeNull();
  });

  test("any words are read back the same, folded between letters", () => {
    const words = fc.string({ unit: fc.constantFrom(..."aé漢🔧,;:\\\"'\n n"), maxLength: 120 });
    fc.assert(
      fc.property(words, words, words, (summary, description, name) => {
        const organizer = { name: `x${name}`, email: "a@b.example" };
        const text = calendarEntry({ ...visit, summary: `x${summary}`, description: `x${description}`, organizer });
        expectLawfulLines(text);
        const { event } = eventOf(text);
        expect(event.summary).toBe(`x${summary}`);
        expect(event.description).toBe(`x${description}`);
      }),
      { numRuns: 300, seed: 2 },
    );
  });

  test("control letters and half letters, which no reader takes, are left out", () => {
    const text = calendarEntry({ ...visit, summary: "a\u0000b\u0007c\uD800d" });
    expectLawfulLines(text);
    expect(eventOf(text).event.summary).toBe("abcd");
  });
});

describe("a contact card (RFC 6350)", () => {
  const party = {
    name: "A. Customer; Flat 2, left",
    lines: ["Flat 2, left", "12 Quay Street"],
    postcode: "00017",
    town: "Ostermoor",
    country: "DE",
    phone: "000 5550199",
    email: "customer@ostermoor.example",
  };
  const cardOf = (text: string) => new ICAL.Component(ICAL.parse(text));

  test("is read back whole", () => {
    const text = contactCard(party, "26-0101@ferrybank.example");
    expectLawfulLines(text);
    const card = cardOf(text);
    expect(card.getFirstPropertyValue("version")).toBe("4.0");
    expect(card.getFirstPropertyValue("uid")).toBe("26-0101@ferrybank.example");
    expect(card.getFirstPropertyValue("fn")).toBe(party.name);
    expect(card.getFirstPropertyValue("n")).toEqual([party.name, "", "", "", ""]);
    expect(card.getFirstPropertyValue("adr")).toEqual(["", "", party.lines, "Ostermoor", "", "00017", "DE"]);
    expect(card.getFirstPropertyValue("tel")).toBe(party.phone);
    expect(card.getFirstPropertyValue("email")).toBe(party.email);
  });

  test("a name alone is a card too", () => {
    const card = cardOf(contactCard({ name: "A. Customer", lines: [] }, "x"));
    expect(card.getFirstPropertyValue("fn")).toBe("A. Customer");
    expect(card.getFirstPropertyValue("adr")).toBeNull();
  });

  test("any name and street are read back the same", () => {
    const of = (letters: string) =>
      fc.string({ unit: fc.constantFrom(...letters), maxLength: 90 }).map((text) => `x${text}`);
    // This reader takes the second of two backslashes before a separator for one that guards it; such parts are looked at below.
    const parts = of("aé漢🔧,;:\"'\n n");
    fc.assert(
      fc.property(of("aé漢🔧,;:\\\"'\n n"), parts, parts, (name, street, town) => {
        const text = contactCard({ name, lines: [street], town }, "x");
        expectLawfulLines(text);
        const card = cardOf(text);
        expect(card.getFirstPropertyValue("fn")).toBe(name);
        expect(card.getFirstPropertyValue("adr")).toEqual(["", "", street, town, "", "", ""]);
      }),
      { numRuns: 300, seed: 6 },
    );
  });

  test("a backslash is doubled, and guards nothing that follows", () => {
    expect(contactCard({ name: "x", lines: ["a\\"], town: "b;" }, "x")).toContain("ADR:;;a\\\\;b\\;;;;\r\n");
  });
});

describe("a moment (RFC 3339)", () => {
  test("one moment in three zones is one", () => {
    const moments = ["2026-03-04T09:30Z", "2026-03-04T10:30+01:00", "2026-03-04 04:30:00-05:00"];
    expect(new Set(moments.map(momentOf)).size).toBe(1);
    expect(momentOf("1970-01-01T00:00Z")).toBe(0);
  });

  test.each(["2026-03-04T10:30", "2026-02-30T10:30Z", "2026-03-04T25:00Z", "2026-13-04T10:00Z", "4 March 10:30", ""])(
    "%j is none",
    (text) => expect(momentOf(text)).toBeUndefined(),
  );
});

describe("the visits of a job", () => {
  const shop = { name: "Ferrybank workshop", lines: [], phone: "000 5550134", email: "workshop@ferrybank.example" };
  const jobOf = (...events: readonly string[]) => {
    const head = "format: faultwright-job/1\njob: 26-0101\nsheet: tumble-dryer\ncomplaint: stays cold\n";
    const job = readJob(`${head}events:\n${events.map((event) => `  - ${event}\n`).join("")}`, "job.yaml");
    if (!job.ok) throw new Error(JSON.stringify(job.issues));
    return job.value;
  };
  const agreed = 'visit: {at: "2026-03-04T10:30+01:00", minutes: 45}';
  const moved = 'visit: {at: "2026-03-05T08:00+01:00"}';
  const second = 'visit: {at: "2026-03-12T08:00+01:00", number: 2}';
  const calledOff = 'visit: {cancelled: "yes"}';
  const told = (...events: readonly string[]) =>
    visitsOf(jobOf(...events)).map(({ number, at, sequence, isCancelled }) => [
      number,
      at.slice(8, 10),
      sequence,
      isCancelled,
    ]);

  test("moved, called off, agreed again: the same visit, counted on each time", () => {
    expect(told(agreed)).toEqual([[1, "04", 0, false]]);
    expect(told(agreed, moved)).toEqual([[1, "05", 1, false]]);
    expect(told(agreed, moved, calledOff)).toEqual([[1, "05", 2, true]]);
    expect(told(agreed, moved, calledOff, agreed)).toEqual([[1, "04", 3, false]]);
    expect(told(agreed, second)).toEqual([
      [1, "04", 0, false],
      [2, "12", 0, false],
    ]);
  });

  test("what is taken back was told before: it counts as a change", () => {
    expect(told(agreed, moved, "withdraws: 2")).toEqual([[1, "04", 2, false]]);
    expect(told(agreed, "withdraws: 1")).toEqual([[1, "04", 1, true]]);
    expect(told(agreed, calledOff, "withdraws: 2")).toEqual([[1, "04", 2, false]]);
  });

  test("as a calendar entry: one name for all versions, the customer's address, the shop's telephone", () => {
    const customer =
      "customer: {name: A. Sample, lines: [7 Mill Row], postcode: '00017', town: Ostermoor, phone: 000 5550177}";
    const entry = (...events: readonly string[]) => {
      const text = visitEntry(jobOf(customer, ...events), { shop, appliance: "tumble dryer" }, visit.made);
      if (!text.ok) throw new Error(JSON.stringify(text.issues));
      return eventOf(text.value).event;
    };
    const [first, last] = [entry(agreed), entry(agreed, moved)];
    expect(last.uid).toBe(first.uid);
    expect(first.uid).toBe("26-0101-visit-1@ferrybank.example");
    expect([first.sequence, last.sequence]).toEqual([0, 1]);
    expect(first.duration.toString()).toBe("PT45M");
    expect(last.startDate.toString()).toBe("2026-03-05T07:00:00Z");
    expect(first.summary).toBe("Ferrybank workshop: tumble dryer, A. Sample");
    expect(first.location).toBe("7 Mill Row, 00017 Ostermoor");
    expect(first.description).toBe("stays cold\n000 5550177\nFerrybank workshop 000 5550134");
  });

  test("what is not there is asked for", () => {
    const facts = { shop, appliance: "tumble dryer" };
    expect(visitEntry(jobOf("note: x"), facts, 0)).toMatchObject({ ok: false, issues: [{ code: "visit.none" }] });
    expect(visitEntry(jobOf(agreed), facts, 0, 2)).toMatchObject({ ok: false, issues: [{ code: "visit.none" }] });
    expect(customerCard(jobOf(agreed), shop)).toMatchObject({ ok: false, issues: [{ code: "visit.no-customer" }] });
  });

  test.each([
    ["a moment without its zone", 'visit: {at: "2026-03-04T10:30"}', "job.moment"],
    ["nothing", "visit: {number: 1}", "read.missing"],
    ["half a visit", 'visit: {at: "2026-03-04T10:30Z", number: 1.5}', "job.visit"],
  ])("%s is refused", (_what, event, code) => {
    const head = "format: faultwright-job/1\njob: x\nsheet: tumble-dryer\ncomplaint: cold\n";
    const job = readJob(`${head}events: [{${event}}]\n`, "job.yaml");
    expect(job.ok ? [] : job.issues.map((issue) => issue.code)).toEqual([code]);
  });
});
