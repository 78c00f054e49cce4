import { Link, Route, Router, Switch } from "wouter";
import { useHashLocation } from "wouter/use-hash-location";
import { BenchScreen } from "./bench/bench-screen.tsx";
import { NewPartScreen } from "./bench/new-part-screen.tsx";
import { TagScreen } from "./bench/tag-screen.tsx";
import { text } from "./english.ts";
import { JobScreen } from "./job/job-screen.tsx";
import { JobsScreen } from "./jobs/jobs-screen.tsx";
import { NewJobScreen } from "./jobs/new-job-screen.tsx";
import { VersionLine } from "./offline/version-line.tsx";
import { NewPracticeScreen } from "./practice/new-practice-screen.tsx";
import { SheetScreen } from "./sheets/sheet-screen.tsx";
import { SheetsScreen } from "./sheets/sheets-screen.tsx";
import { SettingsScreen } from "./shell/settings-screen.tsx";

/** Addresses are behind the `#`, so that the app works from any folder of any host. */
export function App() {
  return (
    <Router hook={useHashLocation}>
      <VersionLine />
      <Switch>
        <Route path="/job/:id/:tab?">{({ id, tab }) => <JobScreen key={id} id={id} tab={tab ?? "next"} />}</Route>
        <Route path="/new">
          <NewJobScreen />
        </Route>
        <Route path="/practice">
          <NewPracticeScreen />
        </Route>
        <Route path="/bench/new">
          <NewPartScreen />
        </Route>
        <Route path="/bench/:id/tag">{({ id }) => <TagScreen key={id} id={id} />}</Route>
        <Route path="/bench/:id">{({ id }) => <BenchScreen key={id} id={id} />}</Route>
        <Route path="/sheets">
          <SheetsScreen />
          <Places />
        </Route>
        <Route path="/sheets/:name">
          {({ name }) => (
            <>
              <SheetScreen key={name} name={name} />
              <Places />
            </>
          )}
        </Route>
        <Route path="/settings">
          <SettingsScreen />
          <Places />
        </Route>
        <Route>
          <JobsScreen />
          <Places />
        </Route>
      </Switch>
    </Router>
  );
}

/** The ways to the other screens, at the foot of the page within the thumb's reach. */
function Places() {
  return (
    <nav className="feet">
      <Link className={(active) => (active ? "foot here" : "foot")} href="/">
        {text.places.jobs}
      </Link>
      <Link className={(active) => (active ? "foot here" : "foot")} href="/sheets">
        {text.places.sheets}
      </Link>
      <Link className={(active) => (active ? "foot here" : "foot")} href="/settings">
        {text.places.settings}
      </Link>
    </nav>
  );
}
