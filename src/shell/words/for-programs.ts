import { type Verification, verificationOf, type WorkedJob } from "../../core/ledger/index.ts";
import { unitOfQuantity } from "../../core/meter/index.ts";
import type { Plan, PlanQuestion, PlanStep } from "../../core/plan/index.ts";
import type { Probe } from "../../core/predict/index.ts";
import type { Observation } from "../../core/sign/index.ts";
import { explain, legs } from "../../core/suspect/index.ts";
import { observationInWords } from "./observation.ts";
import { lineToWrite } from "./write-down.ts";

// What `--json` prints; docs/json.md tells every key. Plain data only: no maps, no instruments, nothing infinite.

/** `next --json`. */
export function nextForPrograms(worked: WorkedJob, plan: Plan) {
  const verification = verificationOf(worked);
  const { base, blind, least, stopCost } = plan;
  return {
    format: "faultwright-next/1",
    ...headOf(worked),
    energy: plan.energy,
    provedDead: plan.provedDead,
    minutes: plan.minutes,
    timeIsUp: plan.timeIsUp,
    mayClose: plan.mayClose,
    ...beliefOf(worked),
    unanswered: plan.unanswered,
    ...(verification === undefined ? {} : { verification: verificationFrom(worked, verification) }),
    steps: plan.steps.map(stepFrom),
    costs: { testing: base, withoutTest: blind, least, stop: stopCost },
    work: plan.work,
    ...(plan.refined === undefined ? {} : { refined: plan.refined }),
  };
}

/** `ask --json`. */
export function questionsForPrograms(worked: WorkedJob, plan: Plan) {
  return {
    format: "faultwright-ask/1",
    ...headOf(worked),
    ...beliefOf(worked),
    questions: plan.steps.flatMap(({ questions }) => questions).map(questionFrom),
  };
}

/** `faults --json`. */
export function faultsForPrograms(worked: WorkedJob) {
  const { case: the, observations, belief } = worked;
  return {
    format: "faultwright-faults/1",
    ...headOf(worked),
    ...beliefOf(worked),
    observations: worked.state.observations.map(({ event, observation }) => ({
      event: Number(event.slice(1)),
      ...observationFrom(worked, observation),
      // What came before the last repair speaks of the old part.
      counts: observations.includes(observation),
    })),
    explanations: explain(the, observations, belief).map(({ observations: points, ...mode }) => ({
      ...mode,
      observations: points.map(({ observation, prediction, ...point }) => ({
        observation: worked.state.observations.length - observations.length + observation,
        ...point,
        ...(prediction === undefined ? {} : { terms: prediction.terms }),
      })),
    })),
    boards: legs(the, observations, belief),
  };
}

function headOf({ job, sheet, shop }: WorkedJob) {
  return {
    job: job.id,
    complaint: job.complaint,
    sheet: sheet.title,
    ...(job.machine.ageYears === undefined ? {} : { ageYears: job.machine.ageYears }),
    currency: shop.currency,
  };
}

function beliefOf(worked: WorkedJob) {
  const { parts, nothingWrong, notOnThisSheet, severalFaults, worst } = worked.belief;
  const odd = worst?.contradicts === true ? worked.observations[worst.observation] : undefined;
  return {
    faults: parts,
    nothingWrong,
    notOnThisSheet,
    severalFaults,
    ...(odd === undefined ? {} : { contradicts: observationFrom(worked, odd) }),
  };
}

function stepFrom({ questions, ...step }: PlanStep) {
  return { ...step, questions: questions.map(questionFrom) };
}

function questionFrom({ says, observation, meter, bands, others }: PlanQuestion) {
  return {
    says,
    write: lineToWrite(observation),
    ...askedIn(observation),
    ...(meter === undefined ? {} : { meter: meter.id }),
    bands,
    others,
  };
}

function observationFrom({ case: the }: WorkedJob, observation: Observation) {
  const signs = the.candidates[0]?.machine.signs ?? [];
  return { says: observationInWords(observation, signs), ...askedIn(observation), ...foundIn(observation) };
}

/** What is asked, without what was found. */
function askedIn(observation: Observation) {
  switch (observation.kind) {
    case "sign":
      return { kind: observation.kind, sign: observation.sign, witness: observation.witness };
    case "look":
      return { kind: observation.kind, at: observation.at };
    case "answer":
      return { kind: observation.kind, slot: observation.slot };
    case "count":
    case "reading":
      return { kind: observation.kind, ...probeFrom(observation.probe) };
  }
}

function foundIn(observation: Observation) {
  switch (observation.kind) {
    case "sign":
      return { answer: observation.answer };
    case "look":
      return { found: observation.found };
    case "answer":
      return { variant: observation.variant };
    case "count":
      return { good: observation.good, of: observation.of };
    case "reading":
      return { shown: observation.shown, meter: observation.meter.id, leads: observation.leads };
  }
}

function probeFrom({ quantity, from, to, joinedWith, measure, state }: Probe) {
  return {
    quantity,
    unit: unitOfQuantity(quantity),
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
    ...(joinedWith === undefined ? {} : { joinedWith }),
    ...(measure === undefined ? {} : { measure }),
    state: state.kind === "dead" ? { ...state, hands: Object.fromEntries(state.hands) } : state,
  };
}

function verificationFrom(worked: WorkedJob, { toRead, toCount, toSee, stillAmiss, ...rest }: Verification) {
  return {
    ...rest,
    toRead: toRead.map(({ reading, good }) => ({
      ...observationFrom(worked, reading),
      write: lineToWrite(reading),
      ...(good === undefined ? {} : { good: good.terms }),
    })),
    toCount: toCount.map(({ count, operations }) => ({
      ...observationFrom(worked, count),
      write: lineToWrite(count),
      operations,
    })),
    toSee: toSee.map(({ sign, was }) => ({ sign: sign.id, ask: sign.ask, answers: sign.answers, was })),
    stillAmiss: stillAmiss.map((observation) => observationFrom(worked, observation)),
  };
}
