/** Where a fault of ours ends: the place that failed says so, the rest goes on, and the work can be saved. */
import { Component, type ReactNode } from "react";
import { Button } from "../kit/button.tsx";
import "./fault.css";

interface FaultProps {
  readonly children: ReactNode;
  readonly onSave: () => void;
}

export class Fault extends Component<FaultProps, { readonly error: Error | undefined }> {
  override state: { readonly error: Error | undefined } = { error: undefined };

  static getDerivedStateFromError(error: Error): { readonly error: Error } {
    return { error };
  }

  override render(): ReactNode {
    const { error } = this.state;
    if (!error) return this.props.children;
    return (
      <section className="fault" role="alert">
        <h1 className="title">This is our fault, not yours</h1>
        <p>
          Something here went wrong that should not. Your design is untouched: go to another place, take the last step back, or
          save it as a file.
        </p>
        <p className="fault-words num">{error.message}</p>
        <div className="fault-acts">
          <Button onClick={() => this.setState({ error: undefined })}>Try again</Button>
          <Button look="main" onClick={this.props.onSave}>
            Save the design as a file
          </Button>
        </div>
      </section>
    );
  }
}
