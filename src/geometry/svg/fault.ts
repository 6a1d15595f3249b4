/** What is wrong with a text that was to be read, and what to do: told to whoever chose it. */
export class SvgFault extends Error {
  readonly mend: string;
  constructor(message: string, mend: string) {
    super(message);
    this.mend = mend;
  }
}
