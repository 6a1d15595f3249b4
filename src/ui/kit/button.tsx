import { Button as Base } from "@base-ui/react/button";
import type { ReactNode } from "react";
import "./button.css";

export interface ButtonProps {
  /** main: the one thing to do here. quiet: without a box. link: inside a text. */
  readonly look?: "plain" | "main" | "quiet" | "link";
  readonly size?: "usual" | "small" | "icon";
  readonly children: ReactNode;
  readonly onClick?: () => void;
  readonly disabled?: boolean;
  /** Of a button that stays in: whether it is. */
  readonly pressed?: boolean;
  /** Said to those who do not see the button, where its face is a sign. */
  readonly label?: string;
  readonly title?: string;
  readonly type?: "button" | "submit";
  readonly className?: string;
}

/**
 * A button; stays focusable where it cannot be pressed now, so that the keyboard does not lose its place. As the trigger of something that opens
 * it takes along what says so.
 */
export function Button({
  look = "plain",
  size = "usual",
  children,
  onClick,
  disabled = false,
  pressed,
  label,
  title,
  type = "button",
  className = "",
  ...trigger
}: ButtonProps) {
  const sized = size === "usual" ? "" : `btn-${size}`;
  return (
    <Base
      {...trigger}
      className={`btn btn-${look} ${sized} ${className}`}
      type={type}
      disabled={disabled}
      focusableWhenDisabled
      onClick={onClick}
      aria-label={label}
      title={title}
      aria-pressed={pressed}
    >
      {children}
    </Base>
  );
}
