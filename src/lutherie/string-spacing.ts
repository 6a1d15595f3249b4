/**
 * Where strings stand between the two outer ones.
 *
 * Equal gaps leave the same wood or air between neighbours: with string diameters g(i) over the spread S between outer centres,
 *   gap = (S - sum g + (g(1) + g(N)) / 2) / (N - 1).
 * Equal centres divide S itself. Courses (strings that are played as one) keep their own spacing inside, and the gap or the distance of
 * centres is made equal from course to course. Source: geometry.
 */

export interface Spacing {
  /** Between the centres of the outer strings, mm. */
  readonly spread: number;
  /** Diameters from bass to treble, mm. */
  readonly gauges: readonly number[];
  /** Strings in each course from bass to treble; must add up to the number of strings. */
  readonly courses: readonly number[];
  /** Between the centres of neighbours inside a course, mm. */
  readonly inCourse: number;
  readonly by: "equal-gap" | "equal-centre";
}

/**
 * Centres of the strings from bass to treble, mm from the middle of the spread, bass negative. The strings of a single course stand about
 * the middle, whatever the spread.
 */
export function stringCentres({ spread, gauges, courses, inCourse, by }: Spacing): number[] {
  const spans = courses.map((count) => (count - 1) * inCourse);
  const first = gauges.length > 0 ? spans[0]! : 0;
  if (courses.length < 2) return gauges.map((_, i) => i * inCourse - first / 2);

  const steps: number[] = [];
  const total = spans.reduce((sum, span) => sum + span, 0);
  if (by === "equal-centre") {
    const pitch = (spread - (first + spans.at(-1)!) / 2) / (courses.length - 1);
    for (let c = 1; c < courses.length; c++) steps.push(pitch - (spans[c - 1]! + spans[c]!) / 2);
  } else {
    const facing = facingHalves(gauges, courses);
    const gap = (spread - total - facing.reduce((sum, half) => sum + half, 0)) / (courses.length - 1);
    for (const halves of facing) steps.push(gap + halves);
  }

  const centres: number[] = [];
  let at = -spread / 2;
  courses.forEach((count, c) => {
    if (c > 0) at += steps[c - 1]!;
    for (let k = 0; k < count; k++) centres.push(at + k * inCourse);
    at += spans[c]!;
  });
  return centres;
}

/** Half diameters of the two strings that face each other across each space between courses. */
function facingHalves(gauges: readonly number[], courses: readonly number[]): number[] {
  const halves: number[] = [];
  let last = -1;
  for (const count of courses.slice(0, -1)) {
    last += count;
    halves.push((gauges[last]! + gauges[last + 1]!) / 2);
  }
  return halves;
}

/**
 * `courses` made to add up to `count` strings: what is missing is filled with single strings, what is too much is left out.
 */
export function fittingCourses(courses: readonly number[], count: number): number[] {
  const fitted: number[] = [];
  let left = count;
  for (const strings of courses) {
    if (left <= 0) break;
    fitted.push(Math.min(strings, left));
    left -= strings;
  }
  return [...fitted, ...Array<number>(Math.max(0, left)).fill(1)];
}
