import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { shippedMachine } from "../../../test/machines/shipped.ts";
import { readShop } from "../remedy/index.ts";
import type { Act } from "./act.ts";
import { judgeAct } from "./judge-act.ts";
import { AS_FOUND, type Place } from "./place.ts";

const machine = shippedMachine("tumble-dryer", { stages: "two" });
const read = readShop(readFileSync("data/costs/demo-shop.yaml", "utf8"), "demo-shop");
if (!read.ok) throw new Error("the demonstration shop is refused");
const shop = read.value;

const out: Place = { ...AS_FOUND, live: false };
const lidOff: Place = { ...out, open: new Set(["board"]) };
const dead: Place = { ...lidOff, provedDead: true };
const ohms: Act = { do: "measure", quantity: "ohms", pairs: [{ from: "X3.1", to: "X3.3", joinedWith: [] }] };
const volts: Act = { ...ohms, quantity: "volts", run: { kind: "step", id: "heat" } };
const watts: Act = { do: "measure", quantity: "watts", pairs: [], run: { kind: "step", id: "heat" } };

/** "danger: ..." or "obstacle: ...", or "done". */
function judged(act: Act, place: Place): string {
  const judgement = judgeAct(act, place, machine, shop);
  if (judgement === undefined) return "done";
  return judgement.kind === "danger" ? `danger: ${judgement.danger}` : `obstacle: ${judgement.obstacle.because}`;
}

describe("what would hurt is not done", () => {
  test.each<[string, Act, Place, string]>([
    ["bridging anything, ever", { do: "bridge" }, dead, "danger: bridge"],
    ["a cover off with the plug in", { do: "open", access: "board" }, AS_FOUND, "danger: open while live"],
    ["ohms with the plug in", ohms, AS_FOUND, "danger: ohms while live"],
    ["a reading inside that is not proved dead", ohms, lidOff, "danger: not proved dead"],
    ["tips held on live parts", volts, { ...lidOff, live: true }, "danger: tips on live parts"],
    ["clips on what is not proved dead", volts, lidOff, "danger: clip before proved dead"],
    [
      "a tab that no clip holds",
      { ...volts, pairs: [{ from: "heater.s1", to: "heater.common", joinedWith: [] }] },
      dead,
      "danger: by hand only",
    ],
    [
      "volts from a rail to the mains",
      { ...volts, pairs: [{ from: "X6.1", to: "X3.1", joinedWith: [] }] },
      dead,
      "danger: rail to mains",
    ],
    ["plug in with the lid off", { do: "plug in" }, dead, "danger: run with the cover off"],
    [
      "plug in with a connector off",
      { do: "plug in" },
      { ...out, pulled: new Set(["X3"]) },
      "danger: run with a wire off",
    ],
    [
      "clips with the back off, which may not run so",
      volts,
      { ...dead, open: new Set(["board", "back"]) },
      "danger: run with the cover off",
    ],
    [
      "a connector pulled with the plug in",
      { do: "pull", plug: "X3" },
      { ...lidOff, live: true },
      "danger: connector while live",
    ],
    ["500 V between the poles", { ...ohms, quantity: "insulation ohms" }, dead, "danger: insulation between poles"],
    [
      "a run capacitor that may be charged",
      { ...ohms, quantity: "farads", pairs: [{ from: "run-cap.a", to: "run-cap.b", joinedWith: [] }] },
      { ...dead, open: new Set(["back"]) },
      "danger: charged",
    ],
    ["leaving it open", { do: "finish" }, dead, "danger: leave it open"],
    [
      "a heater fitted with the plug in",
      { do: "mend", course: "heater/new" },
      { ...AS_FOUND, open: new Set(["back"]) },
      "danger: hands inside while live",
    ],
  ])("%s", (_what, act, place, answer) => {
    expect(judged(act, place)).toBe(answer);
  });
});

describe("what cannot be done says what comes first", () => {
  test.each<[string, Act, Place, string]>([
    ["behind a shut lid", ohms, out, "obstacle: behind a cover"],
    ["watching with the plug out", { do: "watch", signs: ["heat"] }, out, "obstacle: not running"],
    ["watts with the plug out", watts, out, "obstacle: not running"],
    ["volts in no step", { ...ohms, quantity: "volts" }, dead, "obstacle: nothing to read with the plug out"],
    ["opening what is open", { do: "open", access: "board" }, dead, "obstacle: already so"],
    [
      "the lid while the front is off",
      { do: "close", access: "board" },
      { ...dead, open: new Set(["board", "front"]) },
      "obstacle: behind another",
    ],
    ["closing the job unseen", { do: "finish" }, AS_FOUND, "obstacle: not verified"],
  ])("%s", (_what, act, place, answer) => {
    expect(judged(act, place)).toBe(answer);
  });
});

describe("what is safe and possible is done", () => {
  test.each<[string, Act, Place]>([
    ["ohms behind the open lid, proved dead", ohms, dead],
    ["volts by clips behind the open lid, proved dead", volts, dead],
    [
      "volts along a rail, against its own 0 V",
      { ...volts, pairs: [{ from: "X6.1", to: "X6.2", joinedWith: [] }] },
      dead,
    ],
    ["ohms at the mains plug in the hand", { ...ohms, pairs: [{ from: "plug.L", to: "plug.N", joinedWith: [] }] }, out],
    [
      "insulation to earth",
      { ...ohms, quantity: "insulation ohms", pairs: [{ from: "plug.L", to: "plug.PE", joinedWith: [] }] },
      out,
    ],
    [
      "a run capacitor that was discharged",
      { ...ohms, quantity: "farads", pairs: [{ from: "run-cap.a", to: "run-cap.b", joinedWith: [] }] },
      { ...dead, open: new Set(["back"]), discharged: new Set(["back"]) },
    ],
    ["watts with all shut", watts, AS_FOUND],
    ["a look in plain view, plugged in", { do: "look", at: ["lint"] }, AS_FOUND],
    ["advice at any time", { do: "mend", course: "load/advise" }, AS_FOUND],
    ["closing what was seen to work and is shut", { do: "finish" }, { ...AS_FOUND, verified: true }],
  ])("%s", (_what, act, place) => {
    expect(judged(act, place)).toBe("done");
  });
});
