import { closingText } from "../english-closing.ts";
import { Folded } from "../shell/folded.tsx";
import type { RoomProps } from "./closing-screen.tsx";
import { ContactForm } from "./contact-form.tsx";
import { HeatUpForm } from "./heat-up-form.tsx";
import { Operations } from "./operations.tsx";
import { PowerLogPart } from "./power-log-part.tsx";
import { Strengths } from "./strengths.tsx";

/** Is it mended? What shows it here, what only the customer can show, and what is not shown at all. */
export function ProofPage(props: RoomProps) {
  const { view } = props;
  const words = closingText.proof;
  const held = !view.mayEnergise && !view.isUntouched && view.repair !== undefined;
  return (
    <>
      <h1 id="step" tabIndex={-1}>
        {closingText.rooms.proof}
      </h1>
      {view.repair !== undefined && <p>{view.repair.says}</p>}
      <p className="care">{words.live}</p>
      {held && (
        <p className="trouble">
          <b>{words.notYet}</b>
        </p>
      )}
      <section>
        <h2>{words.operations.title}</h2>
        <Operations {...props} />
      </section>
      <section>
        <h2>{words.heat.title}</h2>
        <Folded says={words.heat.about}>
          <HeatUpForm {...props} held={held} />
        </Folded>
        <h2>{words.contact.title}</h2>
        <Folded says={words.contact.by}>
          <ContactForm {...props} held={held} />
        </Folded>
        <h2>{words.log.title}</h2>
        <PowerLogPart {...props} />
      </section>
      <Strengths {...props} />
    </>
  );
}
