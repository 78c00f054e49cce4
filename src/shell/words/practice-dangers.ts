import type { Danger, Obstacle } from "../../core/practice/index.ts";
import type { Machine } from "../../core/sheet/index.ts";

/** What would have happened, and the rule. Common practice, no source; local rules come first. */
const DANGERS: Readonly<Record<Danger, { readonly life: string; readonly rule: string }>> = {
  bridge: {
    life: "With a protector or a door switch bridged the machine heats or turns with nothing to stop it, and it is forgotten there.",
    rule: "No protector and no door switch is ever bridged, not even for a test. Measure it: dead by ohms, or clipped by volts.",
  },
  "open while live": {
    life: "The plug is in: behind that cover bare parts at mains voltage would lie beside your hand, and what turns may start.",
    rule: "Plug out first, in sight or in your pocket (`plug out`); then the cover; then `prove dead`.",
  },
  "hands inside while live": {
    life: "The plug is in: a hand or a tool in there touches mains voltage sooner or later, or is caught by what turns.",
    rule: "Plug out first (`plug out`), then `prove dead`, then hands inside.",
  },
  "connector while live": {
    life: "Pulled or pushed under load a connector draws an arc: burnt pins, a dead board, a burnt finger.",
    rule: "Connectors only with the plug out and proved dead.",
  },
  "not proved dead": {
    life: "The plug you pulled may be another's, a capacitor may still be charged: most shocks are had on what was taken for dead.",
    rule: "`prove dead`: two-pole tester on a known live point, on all poles and earth, on the live point again. It is done anew after every energising.",
  },
  charged: {
    life: "It may still hold its charge, whatever the plug does: a jerk of the hand, a burn, a destroyed meter; of a motor module, a death.",
    rule: "`discharge`: an insulated clip resistor on it (10 kΩ 5 W; 2.2 kΩ 10 W for a module), measure DC, wait, measure again. It is done anew after every energising.",
  },
  "ohms while live": {
    life: "Set to ohms on live parts the meter blows its fuse or itself, with an arc at the tips; the reading would mean nothing.",
    rule: "Ohms, insulation, capacitors and repeated operations only with the plug out.",
  },
  "tips on live parts": {
    life: "The plug is in: you would hold two tips on live parts by hand. One slip is an arc, and a hand that jerks.",
    rule: "Clip the leads on dead, hands away, let it run, read. `plug out`, open, `prove dead`, then measure in the step: clipping, running and switching off again are done in one go.",
  },
  "by hand only": {
    life: "There no clip holds: it would be read with the tips in your hands on live parts.",
    rule: "This shop does no live reading by hand. Take a connector that can be clipped, or read it dead.",
  },
  "never live": {
    life: "That ribbon is too close for a clip: the tip joins two pins, and the board is gone.",
    rule: "That place is never read live. Read it dead, or elsewhere.",
  },
  "rail to mains": {
    life: "One lead on a low-voltage rail, the other on the mains: what a slip joins there kills the board, and the volts between them say nothing about either.",
    rule: "A rail is read against its own 0 V, which is taken for live as well; a mains wire against another mains wire.",
  },
  "clip before proved dead": {
    life: "Clips go on with fingers at the pins, and nobody has proved that they are dead.",
    rule: "`prove dead` first; the leads go on dead and come off dead.",
  },
  "run with the cover off": {
    life: "With that cover off, what turns and what is live would be open to your hands, and to the customer's child.",
    rule: "Cover on before it runs (`close` it); only leads that are clipped on under a laid-on cover are read with it off.",
  },
  "run with a wire off": {
    life: "A loose wire finds the case or another pin as soon as it is live.",
    rule: "Everything back together before it is energised: `push` the connector, `refit` the wire.",
  },
  "insulation between poles": {
    life: "500 V between the poles goes straight through the board, the display and the filter.",
    rule: "Insulation is read against earth only: `measure insulation L+N earth`, or one wire and the case, board unplugged.",
  },
  "leave it open": {
    life: "You would leave an open machine behind, with a plug beside it.",
    rule: "Everything back in its place first, all screws in; then the job may be closed.",
  },
};

/** An unsafe act answered: what would have happened in life, and the rule. `of` is what it was about. */
export function dangerInWords(danger: Danger, of: string | undefined, machine: Machine): string[] {
  const { life, rule } = DANGERS[danger];
  const name = of === undefined ? undefined : danger === "charged" ? thingName(of, machine) : coverName(of, machine);
  return [`Not done.${name === undefined ? "" : ` (${name})`}`, `In life: ${life}`, `Rule: ${rule}`];
}

/** Why something cannot be done as things stand, and what would have to come first. */
export function obstacleInWords(obstacle: Obstacle, machine: Machine): string {
  switch (obstacle.because) {
    case "behind a cover":
      return `It is behind the ${coverName(obstacle.of, machine)}, which is shut: \`open ${obstacle.of}\`.`;
    case "already so":
      return "It is so already.";
    case "behind another":
      return `The ${coverName(obstacle.of, machine)} is still off and goes on first: \`close ${obstacle.of}\`.`;
    case "not running":
      return "The plug is out, so nothing runs: `plug in` first.";
    case "nothing to read with the plug out":
      return "With the plug out there is nothing to read. Say in which step: `... in heat`.";
    case "not verified":
      return "It was not seen to work since the last thing done to it: `verify` first, or `stop` and say how you leave it.";
    case "nobody knows why it opened":
      return `The ${thingName(obstacle.of, machine)} was open and it is not known why: look, then \`why ${obstacle.of}\`. Or \`stop\`.`;
    case "cannot be looked at":
      return "There is nothing to be seen there.";
    case "no such reading":
      return "There is no such reading at this machine.";
    case "nothing to take back":
      return "Nothing has been done yet.";
  }
}

/** What people call a cover. */
export function coverName(id: string, { access }: Machine): string {
  return access.find((one) => one.id === id)?.says.replace(/^the /, "") ?? id;
}

/** What people call a part, connection, assembly or cause. */
export function thingName(id: string, { parts, causes, assemblies }: Machine): string {
  return [...parts, ...causes, ...assemblies].find((one) => one.id === id)?.says ?? id;
}
