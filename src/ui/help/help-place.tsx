/** Help: a short page a task, with a picture taken from the app itself. */
import { hashOf, type Route } from "../frame/route.ts";
import { TOPICS, type Topic } from "./topics.ts";
import "./help-place.css";

const routeOf = (place: string): Route => {
  const [name = "parts", part] = place.split("/");
  return { place: name, ...(part ? { part } : {}) } as Route;
};

export function HelpPlace({ wanted }: { readonly wanted: string | undefined }) {
  const topic = TOPICS.find(({ id }) => id === wanted) ?? TOPICS[0]!;
  return (
    <div className="helps">
      <nav className="helps-list" aria-label="Help, task by task">
        <h2 className="side-title">Help</h2>
        <ul>
          {TOPICS.map(({ id, title }) => (
            <li key={id}>
              <a href={hashOf({ place: "help", part: id })} aria-current={id === topic.id ? "page" : undefined}>
                {title}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      {/* It scrolls, and may hold nothing else to put the focus on. */}
      {/* eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex */}
      <article className="helps-page" aria-labelledby="help-title" tabIndex={0}>
        <Page topic={topic} />
      </article>
    </div>
  );
}

function Page({ topic: { id, title, about, steps, picture, place } }: { readonly topic: Topic }) {
  return (
    <>
      <h1 className="title" id="help-title">
        {title}
      </h1>
      <p className="helps-about">{about}</p>
      <div className="helps-both">
        <div>
          <ol className="helps-steps">
            {steps.map(({ says }) => (
              <li key={says}>{says}</li>
            ))}
          </ol>
          <a className="btn btn-main" href={hashOf(routeOf(place))}>
            Do it now
          </a>
        </div>
        <img key={id} className="helps-picture" src={`help/${id}.png`} alt={picture.shows} />
      </div>
    </>
  );
}
