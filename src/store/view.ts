/** Something to read that follows from stores. Fits wherever a store is read and watched. */
export interface View<T> {
  readonly getState: () => T;
  readonly getInitialState: () => T;
  readonly subscribe: (listener: (state: T, before: T) => void) => () => void;
}

interface Watched {
  readonly subscribe: (listener: () => void) => () => void;
}

/**
 * A view over stores. `work` is asked when the view is read after one of them has changed, so it should give the same object as long as
 * nothing that it needs is different; listeners hear only of another one.
 */
export function viewOf<T>(stores: readonly Watched[], work: () => T): View<T> {
  return {
    getState: work,
    getInitialState: work,
    subscribe: (listener) => {
      let last = work();
      const look = (): void => {
        const now = work();
        if (Object.is(now, last)) return;
        const before = last;
        last = now;
        listener(now, before);
      };
      const leave = stores.map((store) => store.subscribe(look));
      return () => leave.forEach((stop) => stop());
    },
  };
}
