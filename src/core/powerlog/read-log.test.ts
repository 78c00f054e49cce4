import { describe, expect, test } from "vitest";
import { readPowerLog } from "./read-log.ts";

function read(text: string, column?: string) {
  const log = readPowerLog(text, "log.csv", column);
  if (!log.ok) throw new Error(JSON.stringify(log.issues));
  const { seconds, watts, volts } = log.value;
  return {
    ...log.value,
    seconds: [...seconds],
    watts: [...watts],
    volts: volts && [...volts],
    warnings: log.warnings.map(({ code, line }) => `${code}${line === undefined ? "" : `:${line}`}`),
  };
}

describe("how a log is written is found from the log itself", () => {
  test.each([
    ["seconds and commas", "t_s,p1_W,p8_W\n0,0,0\n10,2040.5,60\n"],
    ["no names, semicolons", "10/06/2012 00:00:07;0;0\n10/06/2012 00:00:17;2040.5;60\n"],
    ["decimal commas", "Zeit;Leistung [W]\n04.03.2026 10:00:00;0,0\n04.03.2026 10:00:10;2040,5\n"],
    ["decimal commas and points between thousands", "0;0,0\n10;2.040,5\n"],
    ["tabs and kilowatts", "time\tP (kW)\n0\t0\n10\t2.0405\n"],
    ["quoted decimal commas", 'seconds,power\n"0","0,0"\n"10","2040,5"\n'],
    ["ISO 8601 with a zone", "time,W\n2026-03-29T01:59:55+01:00,0\n2026-03-29T03:00:05+02:00,2040.5\n"],
    ["ISO 8601 with a Z", "time,W\n2026-03-04T10:00:00.000Z,0\n2026-03-04T10:00:10.000Z,2040.5\n"],
    ["a date and a time apart", "date;time;watts\n2026-03-04;23:59:55;0\n2026-03-05;00:00:05;2040.5\n"],
    ["a time of day over midnight", "23:59:55,0\n00:00:05,2040.5\n"],
    ["milliseconds since 1970", "ts,W\n1772618400000,0\n1772618410000,2040.5\n"],
    ["minutes", "t (min),W\n0,0\n0.16666666666666666,2040.5\n"],
    ["the half of the day", "3/4/2026 11:59:55 AM,0\n3/4/2026 12:00:05 PM,2040.5\n"],
    [
      "lines before the names, a byte order mark, CR LF",
      "\uFEFFlogger 7\r\nowner;shop\r\ntime;watts\r\n0;0\r\n10;2040.5\r\n",
    ],
    ["a number of its own before the time", "id,time,W\n1,2026-03-04 10:00:00,0\n2,2026-03-04 10:00:10,2040.5\n"],
    ["a unit in the cell", "0;0 W\n10;2040.5 W\n"],
  ])("%s", (_what, text) => {
    const { seconds, watts, warnings } = read(text);
    expect(seconds.map((time) => Number(time.toFixed(6)))).toEqual([0, 10]);
    expect(watts.map((power) => Number(power.toFixed(6)))).toEqual([0, 2040.5]);
    expect(warnings).toEqual([]);
  });

  test("month first where a day says so; where none says so over several days, a warning", () => {
    expect(read("2/28/2026 23:59:55,0\n3/1/2026 00:00:05,5\n").seconds).toEqual([0, 10]);
    const open = read("1/2/2026 00:00:00,0\n2/2/2026 00:00:00,5\n3/2/2026 00:00:00,5\n");
    expect(open.seconds).toEqual([0, 86400, 172800]);
    expect(open.warnings).toEqual(["powerlog.date"]);
  });

  test("several columns: the first of power, or the one asked for; volts beside it; energy and amperes are none", () => {
    const text = "time,kWh,U (V),I (A),P (W),P2 (W)\n0,1.5,231,0,1,2\n10,1.5,229,8,3,4\n";
    expect(read(text)).toMatchObject({ watts: [1, 3], volts: [231, 229], columns: ["P (W)", "P2 (W)"] });
    expect(read(text, "2").watts).toEqual([2, 4]);
    expect(read(text, "P2 (W)").watts).toEqual([2, 4]);
  });

  test("February 2028 has 29 days, 2100 has 28 (Gregorian calendar)", () => {
    expect(read("2028-02-28 00:00:00,0\n2028-03-01 00:00:00,0\n").seconds[1]).toBe(2 * 86400);
    expect(read("2100-02-28 00:00:00,0\n2100-03-01 00:00:00,0\n").seconds[1]).toBe(86400);
  });
});

describe("what cannot be read", () => {
  test("rows of nonsense are told with their line and left out; nothing logged is not zero", () => {
    const log = read("t,W\n0,1\n1,x\n2,\n3,70000\nt,W\n4,5\n");
    expect(log.warnings).toEqual(["powerlog.row:3", "powerlog.row:5", "powerlog.row:6", "powerlog.empty"]);
    expect(log.seconds).toEqual([0, 2, 4]);
    expect(log.watts).toEqual([1, Number.NaN, 5]);
  });

  test("of many bad rows five are told, and how many there are", () => {
    const bad = Array.from({ length: 20 }, (_, at) => `${at},?x`).join("\n");
    const good = Array.from({ length: 30 }, (_, at) => `${at},7`).join("\n");
    expect(read(`${good}\n${bad}\n`).warnings).toHaveLength(6);
  });

  test.each([
    ["nothing", "", "powerlog.form"],
    ["words", "a wash\nof two hours\n", "powerlog.form"],
    ["times alone", "0\n1\n2\n", "powerlog.form"],
    ["one row", "0;5\n", "powerlog.rows"],
    ["a day the calendar has not", "2026-02-30 10:00:00,5\n2026-02-30 10:00:01,5\n", "powerlog.form"],
    ["more bad rows than good ones", "0;1\n1;2\na;1\nb;2\nc;3\n", "powerlog.rows"],
  ])("%s", (_what, text, code) => {
    const log = readPowerLog(text, "log.csv");
    expect(log.ok ? [] : log.issues.filter(({ severity }) => severity === "error").map((issue) => issue.code)).toEqual([
      code,
    ]);
  });

  test("a column that is not there, with what was probably meant", () => {
    const log = readPowerLog("t,p_W\n0,1\n1,2\n", "log.csv", "p_w");
    expect(log).toMatchObject({ ok: false, issues: [{ code: "powerlog.column", hint: "Did you mean p_W?" }] });
  });
});
