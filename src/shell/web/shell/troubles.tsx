import { text } from "../english.ts";

/** What could not be written down, and what was refused of it, told at once where it stands. */
export function Troubles(props: { readonly refused?: string; readonly issues?: readonly string[] }) {
  const { refused = "", issues = [] } = props;
  return (
    <>
      {refused !== "" && (
        <p className="trouble" role="alert">
          {text.failed} {refused}
        </p>
      )}
      {issues.map((issue) => (
        <pre className="trouble" role="alert" key={issue}>
          {issue}
        </pre>
      ))}
    </>
  );
}
