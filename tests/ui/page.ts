/** A page for the tests of the screen: what jsdom lacks, a place to draw in, and the ways of a hand at the keyboard. */
import { act, type ReactNode } from "react";
import { createRoot } from "react-dom/client";
import { createWorkbench, type Workbench } from "../../src/store/workbench.ts";
import { newDesign } from "../../src/document/new-design.ts";
import type { Design } from "../../src/document/design.ts";

class NoObserver {
  observe(): void {}
  unobserve(): void {}
  disconnect(): void {}
}

function fillIn(): void {
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
  globalThis.ResizeObserver ??= NoObserver as unknown as typeof ResizeObserver;
  window.matchMedia ??= ((query: string) => ({
    matches: false,
    media: query,
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  })) as unknown as typeof window.matchMedia;
  Element.prototype.scrollIntoView ??= () => undefined;
  Element.prototype.getAnimations ??= () => [];
}

export interface Page {
  readonly root: HTMLElement;
  readonly draw: (content: ReactNode) => void;
  readonly close: () => void;
}

export function openPage(content: ReactNode): Page {
  fillIn();
  const root = document.createElement("div");
  document.body.append(root);
  const react = createRoot(root);
  const draw = (next: ReactNode): void => act(() => react.render(next));
  draw(content);
  return {
    root,
    draw,
    close: () => {
      act(() => react.unmount());
      root.remove();
    },
  };
}

export const benchWith = (change: Partial<Design> = {}): Workbench =>
  createWorkbench({ first: { id: "test", design: { ...newDesign("steel-string"), ...change } } });

/** The input whose name is `name`, by its own label or by the element that names it. */
export function inputNamed(root: ParentNode, name: string): HTMLInputElement {
  const found = [...root.querySelectorAll("input")].find((input) => nameOf(input) === name);
  if (!found) throw new Error(`no input named ${name}; there are: ${[...root.querySelectorAll("input")].map(nameOf).join(", ")}`);
  return found;
}

export const nameOf = (element: Element): string =>
  element.getAttribute("aria-label") ?? document.getElementById(element.getAttribute("aria-labelledby") ?? "")?.textContent ?? "";

export function buttonNamed(root: ParentNode, name: string): HTMLElement {
  const found = [...root.querySelectorAll<HTMLElement>("button, [role=menuitem]")].find(
    (one) => (one.getAttribute("aria-label") ?? one.textContent).trim() === name,
  );
  if (!found) throw new Error(`no button named ${name}`);
  return found;
}

/** Sets an input's text as typing does. */
export function type(input: HTMLInputElement, text: string): void {
  act(() => {
    input.focus();
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set?.call(input, text);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  });
}

export function press(element: Element, key: string, more: KeyboardEventInit = {}): void {
  act(() => {
    element.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more }));
  });
}

export const click = (element: HTMLElement): void => act(() => element.click());
export const focus = (element: HTMLElement): void => act(() => element.focus());
export const leave = (element: HTMLElement): void => act(() => element.blur());
