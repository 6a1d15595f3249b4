/** Presses on what stands where something that opens is still to come. */

/**
 * The handlers of a stand-in: `onPress` is called when the pointer that went down on it is let go, whatever stands in its place by then, since
 * what comes in between would take the rest of the press for one outside of it.
 */
export function earlyPress(onPress: () => void) {
  return {
    onPointerDown: () => {
      const over = new AbortController();
      const { signal } = over;
      const end = (): void => over.abort();
      addEventListener("pointercancel", end, { signal });
      addEventListener(
        "pointerup",
        () => {
          end();
          // After the click that goes with it.
          setTimeout(onPress);
        },
        { signal },
      );
    },
    onClick: onPress,
  };
}
