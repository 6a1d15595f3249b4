/** A step of a work from its first part to its answer. */
export function wholeStep<A>(step: () => A | undefined): A {
  for (;;) {
    const answer = step();
    if (answer !== undefined) return answer;
  }
}
