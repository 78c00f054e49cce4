import type { ModeRule } from "../part/index.ts";
import type { Machine } from "../sheet/index.ts";
import { type JointGroup, jointGroups } from "./joints.ts";
import type { Mode, Severity } from "./mode.ts";
import { type ElementIndex, elementIndex, severitiesOf, severitiesOfCause } from "./severities.ts";
import { faultSays } from "./wording.ts";

/**
 * Every way one machine can be at fault: the modes of its parts, its joints (those that nothing reachable parts as
 * one), and its causes that are not electrical. Order: parts as in the machine, then causes. What has no share is left
 * out: it never fails in the records, and nothing is believed of it.
 */
export function modesOf(machine: Machine): Mode[] {
  const elements = elementIndex(machine);
  const grouped = new Map<number, JointGroup>();
  for (const group of jointGroups(machine)) for (const part of group.parts) grouped.set(part, group);
  const modes: Mode[] = [];
  machine.parts.forEach((part, index) => {
    const group = grouped.get(index);
    if (group !== undefined && group.parts.length > 1) {
      if (group.parts[0] === index) modes.push(...jointModes(machine, group, elements));
      return;
    }
    for (const rule of part.instance.modes) {
      modes.push({
        id: `${part.id}/${rule.name}`,
        part: index,
        cause: -1,
        parts: [index],
        says: faultSays(part, rule.name),
        partSays: part.says,
        share: (part.share * rule.share) / 100,
        severities: severitiesOf(machine, part, rule, elements),
        ...manner(rule),
      });
    }
  });
  machine.causes.forEach((cause, index) => {
    modes.push({
      id: cause.id,
      part: -1,
      cause: index,
      parts: [],
      says: cause.says,
      partSays: cause.says,
      share: cause.share,
      severities: severitiesOfCause(cause),
      nowAndThen: 0,
      victim: false,
    });
  });
  return modes.filter((mode) => mode.share > 0);
}

/** Modes of joints in series: those of one name are one, with the sum of their shares. */
function jointModes(machine: Machine, group: JointGroup, elements: ElementIndex): Mode[] {
  const says = `bad connection between ${placeSays(machine, group.ends[0])} and ${placeSays(machine, group.ends[1])}`;
  const ids = group.parts.map((part) => machine.parts[part].id.replace(/^joint /, "")).join("+");
  const names = new Set(group.parts.flatMap((part) => machine.parts[part].instance.modes.map(({ name }) => name)));
  return [...names].map((name) => {
    const found = group.parts.flatMap((index) => {
      const part = machine.parts[index];
      return part.instance.modes
        .filter((rule) => rule.name === name)
        .map((rule) => ({ index, part, rule, share: (part.share * rule.share) / 100 }));
    });
    const share = found.reduce((sum, one) => sum + one.share, 0);
    const likeliest = found.reduce((best, one) => (one.share > best.share ? one : best));
    return {
      id: `joints ${ids}/${name}`,
      part: likeliest.index,
      cause: -1,
      parts: found.map(({ index }) => index),
      says: `${says}: ${name}`,
      partSays: says,
      share,
      severities: seriesSeverities(
        found.map((one) => ({
          kind: one.part.instance.kind,
          weight: share === 0 ? 1 / found.length : one.share / share,
          severities: severitiesOf(machine, one.part, one.rule, elements),
        })),
      ),
      ...manner(likeliest.rule),
    };
  });
}

/** In series it does not matter which joint it is: joints of one kind are represented by the first of them. */
function seriesSeverities(
  joints: readonly { readonly kind: string; readonly weight: number; readonly severities: readonly Severity[] }[],
): Severity[] {
  const byKind = new Map<string, { weight: number; severities: readonly Severity[] }>();
  for (const { kind, weight, severities } of joints) {
    const before = byKind.get(kind);
    if (before === undefined) byKind.set(kind, { weight, severities });
    else before.weight += weight;
  }
  return [...byKind.values()].flatMap(({ weight, severities }) =>
    severities.map((severity) => ({ weight: severity.weight * weight, effects: severity.effects })),
  );
}

function manner(rule: ModeRule): Pick<Mode, "nowAndThen" | "victim" | "looks" | "seen"> {
  return {
    nowAndThen: rule.nowAndThen,
    victim: rule.victim,
    ...(rule.looks === undefined ? {} : { looks: rule.looks }),
    ...(rule.seen === undefined ? {} : { seen: rule.seen }),
  };
}

/** What a technician calls the place: a point that can be touched there, or the part that begins there. */
function placeSays(machine: Machine, node: number): string {
  const point = machine.points.find((candidate) => candidate.node === node);
  if (point !== undefined) return point.says;
  const part = machine.parts.find(
    (candidate) => candidate.joint === undefined && [...candidate.pins.values()].includes(node),
  );
  return part === undefined ? "the wiring" : `the ${part.says}`;
}
