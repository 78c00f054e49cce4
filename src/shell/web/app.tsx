import { lazy, Suspense } from "react";
import { Link, Route, Router, Switch } from "wouter";
import { useHashLocation } from "wouter/use-hash-location";
import { text } from "./english.ts";
import { JobsScreen } from "./jobs/jobs-screen.tsx";
import { VersionLine } from "./offline/version-line.tsx";

// The list is there first; what most are on their way to is fetched at once, and makes the first screen wait for nothing.
const jobScreen = import("./job/job-screen.tsx");
const JobScreen = lazy(async () => ({ default: (await jobScreen).JobScreen }));
// What no job waits for comes when it is asked for; without a signal it is there all the same.
const NewJobScreen = lazy(async () => ({ default: (await import("./jobs/new-job-screen.tsx")).NewJobScreen }));
const BenchScreen = lazy(async () => ({ default: (await import("./bench/bench-screen.tsx")).BenchScreen }));
const NewPartScreen = lazy(async () => ({ default: (await import("./bench/new-part-screen.tsx")).NewPartScreen }));
const TagScreen = lazy(async () => ({ default: (await import("./bench/tag-screen.tsx")).TagScreen }));
const SettingsScreen = lazy(async () => ({ default: (await import("./shell/settings-screen.tsx")).SettingsScreen }));
const SheetScreen = lazy(async () => ({ default: (await import("./sheets/sheet-screen.tsx")).SheetScreen }));
const SheetsScreen = lazy(async () => ({ default: (await import("./sheets/sheets-screen.tsx")).SheetsScreen }));
const ChoicesScreen = lazy(async () => ({ default: (await import("./customer/choices-screen.tsx")).ChoicesScreen }));
const PapersScreen = lazy(async () => ({ default: (await import("./papers/papers-screen.tsx")).PapersScreen }));
const ClosingScreen = lazy(async () => ({ default: (await import("./closing/closing-screen.tsx")).ClosingScreen }));
const ShelfScreen = lazy(async () => ({ default: (await import("./shelf/shelf-screen.tsx")).ShelfScreen }));
const NewPracticeScreen = lazy(async () => ({
  default: (await import("./practice/new-practice-screen.tsx")).NewPracticeScreen,
}));

/** Addresses are behind the `#`, so that the app works from any folder of any host. */
export function App() {
  return (
    <Router hook={useHashLocation}>
      <VersionLine />
      <Suspense fallback={<p role="status">{text.opening}</p>}>
        <Switch>
          <Route path="/job/:id/:tab?">{({ id, tab }) => <JobScreen key={id} id={id} tab={tab ?? "next"} />}</Route>
          <Route<{ id: string; answer?: string; choice?: string }> path="/choices/:id/:answer?/:choice?">
            {({ id, answer, choice }) => <ChoicesScreen key={id} id={id} answer={answer} choice={choice} />}
          </Route>
          <Route<{ id: string; page?: string; which?: string }> path="/papers/:id/:page?/:which?">
            {({ id, page, which }) => <PapersScreen key={id} id={id} page={page} which={which} />}
          </Route>
          <Route<{ id: string; room?: string }> path="/closing/:id/:room?">
            {({ id, room }) => <ClosingScreen key={id} id={id} room={room ?? "tests"} />}
          </Route>
          <Route path="/shelf">
            <ShelfScreen />
          </Route>
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
          <Route path="/settings/:at?">
            <SettingsScreen />
            <Places />
          </Route>
          <Route>
            <JobsScreen />
            <Places />
          </Route>
        </Switch>
      </Suspense>
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
