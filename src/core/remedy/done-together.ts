import type { Course } from "./course.ts";

const WITH = " + ";

/** The id of courses done in one go: `lint/clean + one-shot/new`. */
export function idTogether(courses: readonly Pick<Course, "id">[]): string {
  return courses.map(({ id }) => id).join(WITH);
}

/** The remedies that an id stands for, each a remedy on paper of its own: usually one. */
export function remediesIn(
  id: string,
): readonly { readonly id: string; readonly on: string; readonly remedy: string }[] {
  return id.split(WITH).map((one) => {
    const [on = "", ...remedy] = one.split("/");
    return { id: one, on, remedy: remedy.join("/") };
  });
}
