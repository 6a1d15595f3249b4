import type { ReactNode } from "react";

/** A table that may be wider than the screen: it scrolls by itself, by keyboard too. */
export function Wide({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // It scrolls, and may hold nothing else to put the focus on.
    // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex
    <section className="fitp-scroll" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
