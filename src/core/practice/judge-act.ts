import { accessChain, storedEnergy } from "../plan/index.ts";
import { type RailRule, railRule } from "../predict/index.ts";
import type { Shop } from "../remedy/index.ts";
import type { Access, Machine, Point } from "../sheet/index.ts";
import type { Act, Pair } from "./act.ts";
import { coverOf, type Place } from "./place.ts";

/** What would hurt somebody or destroy something, as things stand. It is answered, and not done. */
export type Danger =
  | "bridge"
  | "open while live"
  | "hands inside while live"
  | "connector while live"
  | "not proved dead"
  | "charged"
  | "ohms while live"
  | "tips on live parts"
  | "by hand only"
  | "never live"
  | "rail to mains"
  | "clip before proved dead"
  | "run with the cover off"
  | "run with a wire off"
  | "insulation between poles"
  | "leave it open";

/** What simply cannot be done as things stand. `of` names a cover, connector or part. */
export type Obstacle =
  | { readonly because: "behind a cover"; readonly of: string }
  | { readonly because: "already so" }
  | { readonly because: "behind another"; readonly of: string }
  | { readonly because: "not running" }
  | { readonly because: "nothing to read with the plug out" }
  | { readonly because: "not verified" }
  | { readonly because: "nobody knows why it opened"; readonly of: string }
  | { readonly because: "cannot be looked at" }
  | { readonly because: "no such reading" }
  | { readonly because: "nothing to take back" };

export type Judgement =
  | { readonly kind: "danger"; readonly danger: Danger; readonly of?: string }
  | { readonly kind: "obstacle"; readonly obstacle: Obstacle };

/** Is an act safe, and possible, as things stand? Pure; undefined: it may be done. */
export function judgeAct(act: Act, place: Place, machine: Machine, shop: Shop): Judgement | undefined {
  return new Judge(place, machine, shop).of(act);
}

class Judge {
  readonly #place: Place;
  readonly #machine: Machine;
  readonly #shop: Shop;
  readonly #groups: ReadonlyMap<string, Access>;
  readonly #rails: RailRule;

  constructor(place: Place, machine: Machine, shop: Shop) {
    this.#place = place;
    this.#machine = machine;
    this.#shop = shop;
    this.#groups = new Map(machine.access.map((group) => [group.id, group]));
    this.#rails = railRule([machine]);
  }

  of(act: Act): Judgement | undefined {
    const { live, provedDead, open, pulled, freed } = this.#place;
    switch (act.do) {
      case "ask":
      case "hold":
      case "why":
      case "stop":
        return undefined;
      case "bridge":
        return danger("bridge");
      case "watch":
      case "verify":
        return live ? this.#mayRun([]) : obstacle({ because: "not running" });
      case "look":
        return first(act.at.map((at) => this.#inside(at)));
      case "open":
        if (open.has(act.access)) return obstacle({ because: "already so" });
        return live ? danger("open while live", act.access) : undefined;
      case "close":
        return this.#closing(act.access);
      case "plug out":
        return live ? undefined : obstacle({ because: "already so" });
      case "plug in":
        return live ? obstacle({ because: "already so" }) : this.#mayRun([]);
      case "prove dead":
        if (live) return danger("hands inside while live");
        return provedDead ? obstacle({ because: "already so" }) : undefined;
      case "discharge":
        if (live) return danger("hands inside while live");
        return provedDead ? undefined : danger("not proved dead");
      case "pull":
      case "push":
        if (pulled.has(act.plug) === (act.do === "pull")) return obstacle({ because: "already so" });
        return live ? danger("connector while live", act.plug) : this.#inside(act.plug);
      case "free":
      case "refit":
        if (freed.has(act.part) === (act.do === "free")) return obstacle({ because: "already so" });
        return this.#inside(act.part);
      case "gauge":
        return this.#gauge(act.cause, act.measure);
      case "measure":
        return this.#measure(act);
      case "count":
        return live ? danger("ohms while live") : this.#points([act.pair]);
      case "mend":
        return this.#mend(act.course);
      case "finish":
        return this.#finish();
    }
  }

  /** Behind a cover: it has to be open, the plug out, and proved dead. In plain view anything goes. */
  #inside(name: string): Judgement | undefined {
    const cover = coverOf(this.#machine, name);
    return cover === undefined ? undefined : (this.#behind(cover.id) ?? this.#charged(cover.id, name));
  }

  /** The charge of a module is in reach of every hand behind its cover, that of a capacitor of one that touches it. */
  #charged(cover: string, name: string): Judgement | undefined {
    if (this.#place.discharged.has(cover)) return undefined;
    const held = storedEnergy(this.#machine, new Set([cover]), false).find(
      ({ store, part }) => store === "bus" || (store === "run" && (name === part || name.startsWith(`${part}.`))),
    );
    return held === undefined ? undefined : danger("charged", held.part);
  }

  #behind(cover: string): Judgement | undefined {
    if (!this.#place.open.has(cover)) return obstacle({ because: "behind a cover", of: cover });
    if (this.#place.live) return danger("hands inside while live");
    return this.#place.provedDead ? undefined : danger("not proved dead");
  }

  #closing(access: string): Judgement | undefined {
    const { open, live } = this.#place;
    if (!open.has(access)) return obstacle({ because: "already so" });
    if (live) return danger("hands inside while live");
    const behind = [...open].find(
      (id) => id !== access && accessChain(id, this.#groups).some((one) => one.id === access),
    );
    return behind === undefined ? undefined : obstacle({ because: "behind another", of: behind });
  }

  /** May it be energised as it stands? `laidOn`: covers that are laid on over clipped leads. */
  #mayRun(laidOn: readonly string[]): Judgement | undefined {
    const { open, pulled, freed } = this.#place;
    const off = [...open].find((id) => {
      const mayRun = this.#groups.get(id)?.mayRun;
      return mayRun === "no" || (mayRun === "with the cover on only" && !laidOn.includes(id));
    });
    if (off !== undefined) return danger("run with the cover off", off);
    const [loose] = [...pulled, ...freed];
    return loose === undefined ? undefined : danger("run with a wire off", loose);
  }

  #measure({ quantity, pairs, run }: Extract<Act, { do: "measure" }>): Judgement | undefined {
    const { live } = this.#place;
    if (pairs.length === 0) return live ? this.#mayRun([]) : obstacle({ because: "not running" });
    const dead = quantity === "ohms" || quantity === "insulation ohms" || quantity === "farads";
    if (dead) {
      if (live) return danger("ohms while live");
      if (quantity === "insulation ohms" && pairs.some((pair) => !this.#touchesEarth(pair))) {
        return danger("insulation between poles");
      }
      return this.#points(pairs);
    }
    if (run === undefined) return obstacle({ because: "nothing to read with the plug out" });
    return this.#clipped(pairs);
  }

  #points(pairs: readonly Pair[]): Judgement | undefined {
    return first(pairs.flatMap(({ from, to, joinedWith }) => [from, to, ...joinedWith].map((id) => this.#inside(id))));
  }

  /** Leads are clipped on dead and taken off dead; between, hands away. */
  #clipped(pairs: readonly Pair[]): Judgement | undefined {
    const points = pairs.flatMap(({ from, to, joinedWith }) => [from, to, ...joinedWith]).map((id) => this.#point(id));
    if (points.some((point) => point?.live === "never")) return danger("never live");
    if (pairs.some((pair) => !this.#isOnOneSide(pair))) return danger("rail to mains");
    if (!this.#shop.handheld && points.some((point) => point?.live === "handheld")) return danger("by hand only");
    if (this.#place.live) return danger("tips on live parts");
    const shut = first(pairs.flatMap(({ from, to }) => [this.#cover(from), this.#cover(to)]));
    if (shut !== undefined) return shut;
    if (!this.#place.provedDead) return danger("clip before proved dead");
    return this.#mayRun(
      points
        .flatMap((point) => point?.access ?? [])
        .flatMap((id) => accessChain(id, this.#groups))
        .map(({ id }) => id),
    );
  }

  /** Rail to rail, or mains to mains. */
  #isOnOneSide({ from, to, joinedWith }: Pair): boolean {
    const [a, ...others] = [from, to, ...joinedWith].map((id) => this.#point(id));
    return others.every((b) => a === undefined || b === undefined || this.#rails.isOneSide(a, b));
  }

  #cover(point: string): Judgement | undefined {
    const cover = coverOf(this.#machine, point);
    if (cover === undefined || this.#place.open.has(cover.id)) return undefined;
    return obstacle({ because: "behind a cover", of: cover.id });
  }

  #point(id: string): Point | undefined {
    return this.#machine.points.find((point) => point.id === id);
  }

  /** Is one end of the pair the case, or joined to it by the protective conductor as long as it is whole? */
  #touchesEarth({ from, to }: Pair): boolean {
    return [from, to].some((id) => EARTH_PIN.test(id) || id.startsWith("earth-tag."));
  }

  #gauge(cause: string, id: string): Judgement | undefined {
    const measure = this.#machine.causes.find((one) => one.id === cause)?.measures.find((one) => one.id === id);
    if (measure?.access === undefined || this.#place.open.has(measure.access)) return undefined;
    return obstacle({ because: "behind a cover", of: measure.access });
  }

  #mend(course: string): Judgement | undefined {
    const on = course.slice(0, course.lastIndexOf("/"));
    const cause = this.#machine.causes.find(({ id }) => id === on);
    if (cause?.group === "use") return undefined;
    const inside = this.#inside(on);
    if (inside !== undefined) return inside;
    return this.#place.live ? danger("hands inside while live") : undefined;
  }

  #finish(): Judgement | undefined {
    const { open, pulled, freed, verified } = this.#place;
    const [off] = [...open, ...pulled, ...freed];
    if (off !== undefined) return danger("leave it open", off);
    return verified ? undefined : obstacle({ because: "not verified" });
  }
}

/** Pins that are the case or the protective conductor, by the names sheets use. */
const EARTH_PIN = /\.(?:case|PE|E|earth|E-plug|PE inside)$/;

function danger(code: Danger, of?: string): Judgement {
  return { kind: "danger", danger: code, ...(of === undefined ? {} : { of }) };
}

function obstacle(obstacle: Obstacle): Judgement {
  return { kind: "obstacle", obstacle };
}

function first(judgements: readonly (Judgement | undefined)[]): Judgement | undefined {
  return judgements.find((one) => one !== undefined);
}
