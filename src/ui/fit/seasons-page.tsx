/** Seasons: how far each piece moves across its grain from the shop to the player, and what glued pairs want to do against each other. */
import { useMemo, useState, type ReactNode } from "react";
import {
  changeTo,
  movementOf,
  SEASONS,
  WOOD_SPECIES,
  wordsOfPair,
  wordsOfPiece,
  type Movement,
  type MovingPair,
  type MovingPiece,
  type Season,
  type WoodSpecies,
} from "../../checks/seasons.ts";
import { findingsOf } from "../../checks/findings.ts";
import type { Field } from "../../parts/derived.ts";
import { blanksOf, NO_WOOD, seasonsOf, type PlacedBlank } from "../../parts/wood.ts";
import { useDerived, useDesign, useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { FindingSign } from "../kit/sign.tsx";
import { say, type Notation } from "../notation.ts";
import { useEditing } from "../panels/editing.ts";
import { FieldRow } from "../panels/field-row.tsx";
import { Wide } from "./wide.tsx";
import "./fit-pages.css";

const NAMES: Readonly<Record<Season, string>> = { dry: "Driest", damp: "Dampest" };
const pct = (value: number): string => `${value.toFixed(1)} %`;

export function SeasonsPage() {
  const design = useDesign();
  const derived = useDerived();
  const notation = useNotation();
  const editing = useEditing();
  const settled = useMemo(() => seasonsOf(design, derived), [design, derived]);
  const blanks = useMemo(() => blanksOf(design, derived), [design, derived]);
  const movement = useMemo(() => movementOf(design, derived), [design, derived]);
  return (
    <div className="fitp">
      <section className="fitp-main" aria-label="Movement with the seasons">
        {movement ? (
          <>
            <Moisture movement={movement} />
            <Pairs movement={movement} />
          </>
        ) : (
          <p className="note">The numbers of the air cannot be read yet. Mend them, and the movement stands here.</p>
        )}
        <Pieces blanks={blanks} movement={movement} />
        <Woods />
      </section>
      <aside className="fitp-side" aria-label="The air">
        <Groups
          fields={settled.fields}
          render={(field) => <FieldRow key={field.path} field={field} notation={notation} editing={editing} />}
        />
      </aside>
    </div>
  );
}

function Groups({ fields, render }: { readonly fields: readonly Field[]; readonly render: (field: Field) => ReactNode }) {
  const names = [...new Set(fields.map(({ spec }) => spec.group))];
  return names.map((name) => (
    <section className="panel-group" key={name} aria-label={name}>
      <h3 className="panel-group-name">{name}</h3>
      <div className="panel-rows">{fields.filter(({ spec, idle }) => spec.group === name && !idle).map(render)}</div>
    </section>
  ));
}

function Moisture({ movement: { air, seasons } }: { readonly movement: Movement }) {
  const rows = [
    ["In the shop", seasons.shopHumidityPct, air.shopPct],
    ["Driest, at the player's", seasons.dryHumidityPct, air.dryPct],
    ["Dampest, at the player's", seasons.dampHumidityPct, air.dampPct],
  ] as const;
  return (
    <section className="fitp-block" aria-labelledby="moisture-title">
      <h2 id="moisture-title">Moisture of the wood</h2>
      <p className="fitp-lead">
        Wood that has lain long enough settles at{" "}
        {rows.map(([name, , value], i) => (
          <span key={name}>
            {i > 0 ? (i === 2 ? " and " : ", ") : ""}
            <strong className="num">{value.toFixed(1)}</strong> %{" "}
            {i === 0 ? "in the shop" : i === 1 ? "in the driest air" : "in the dampest"}
          </span>
        ))}
        .
      </p>
      <Why>
        <p>
          Equilibrium moisture by the Wood Handbook, FPL-GTR-282 (2021), chapter 4, Eq. 4-5, from the temperature and the relative
          humidity. Derived mainly for Sitka spruce midway between wetting and drying: the first decimal shows a trend, not a
          measurement. Between 6 and 14 % the straight line of Eq. 13-2 is used; beyond that the wide-range rule of Eq. 13-3.
        </p>
        <table className="fitp-table">
          <thead>
            <tr>
              <th scope="col">Air</th>
              <th scope="col" className="right">
                Humidity
              </th>
              <th scope="col" className="right">
                Moisture
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([name, humidity, value]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td className="right num">{pct(humidity)}</td>
                <td className="right num">{pct(value)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Why>
    </section>
  );
}

function Why({ children, label = "How the numbers come about" }: { readonly children: ReactNode; readonly label?: string }) {
  const [open, setOpen] = useState(false);
  return (
    <div className="fitp-why">
      <Button look="link" pressed={open} onClick={() => setOpen(!open)}>
        {label}
      </Button>
      {open ? <div className="fitp-why-body">{children}</div> : null}
    </div>
  );
}

function Pairs({ movement }: { readonly movement: Movement }) {
  const design = useDesign();
  const derived = useDerived();
  const findings = findingsOf(design, derived);
  return (
    <section className="fitp-block" aria-labelledby="pairs-title">
      <h2 id="pairs-title">Glued pairs</h2>
      {movement.pairs.length === 0 ? (
        <p className="note">No two pieces of wood of this design are glued together yet.</p>
      ) : (
        <ul className="fitp-list">
          {movement.pairs.map((pair) => {
            const { first, joint } = pair.placed;
            const found = findings.find(({ id, partId }) => partId === first.partId && id === `seasons/${joint.name}`);
            return <Pair key={pair.placed.id} pair={pair} movement={movement} severity={found?.severity ?? "fine"} />;
          })}
        </ul>
      )}
    </section>
  );
}

function Pair({
  pair,
  movement,
  severity,
}: {
  readonly pair: MovingPair;
  readonly movement: Movement;
  readonly severity: "stop" | "look" | "fine";
}) {
  const notation = useNotation();
  const { joint } = pair.placed;
  const show = shower(notation);
  return (
    <li className="fitp-item">
      <h3 className={`fitp-item-head says-${severity}`}>
        <FindingSign severity={severity} /> <span>{joint.title}</span>
        <span className="fitp-item-number num">{show(pair.moved[pair.worse].corner)}</span>
      </h3>
      <p className="note">
        from corner to corner in the {pair.worse === "dry" ? "driest" : "dampest"} air, were they free
        {joint.crossed ? "; their grain crosses by custom" : ""}
      </p>
      {SEASONS.map((season) => (
        <p key={season} className="fitp-words">
          <strong>{NAMES[season]}.</strong> {wordsOfPair(pair, movement.air, season, show).join(" ")}
        </p>
      ))}
    </li>
  );
}

const shower =
  (notation: Notation) =>
  (mm: number): string =>
    say(mm, "length", { ...notation, fractions: false });

function Pieces({ blanks, movement }: { readonly blanks: readonly PlacedBlank[]; readonly movement: Movement | undefined }) {
  return (
    <section className="fitp-block" aria-labelledby="pieces-title">
      <h2 id="pieces-title">Pieces</h2>
      {blanks.length === 0 ? <p className="note">No part of this design is made of wood yet.</p> : null}
      <ul className="fitp-list">
        {blanks.map((placed) => (
          <Piece
            key={placed.id}
            placed={placed}
            movement={movement}
            piece={movement?.pieces.find((one) => one.placed.id === placed.id)}
          />
        ))}
      </ul>
    </section>
  );
}

const WOOD_KEYS: ReadonlySet<string> = new Set(["species", "sawn", "grain"]);

function Piece({
  placed,
  piece,
  movement,
}: {
  readonly placed: PlacedBlank;
  readonly piece: MovingPiece | undefined;
  readonly movement: Movement | undefined;
}) {
  const notation = useNotation();
  const editing = useEditing();
  const show = shower(notation);
  const { blank, partLabel, wood } = placed;
  return (
    <li className="fitp-item">
      <h3 className="fitp-item-head">
        <span>{blank.title}</span>
        <span className="fitp-item-part">{partLabel === blank.title ? "" : partLabel}</span>
        {piece ? (
          <span className="fitp-item-number num">{SEASONS.map((season) => signed(piece.moved[season], show)).join(" / ")}</span>
        ) : (
          <span className="fitp-item-number note">{wood.value?.species === NO_WOOD ? "no wood: it stays" : ""}</span>
        )}
      </h3>
      <div className="fitp-fields">
        {wood.fields
          .filter(({ key, idle }) => WOOD_KEYS.has(key) && !idle)
          .map((field) => (
            <FieldRow key={field.path} field={field} notation={notation} editing={editing} />
          ))}
      </div>
      {piece && movement ? (
        <Why>
          {SEASONS.map((season) => (
            <p key={season}>
              <strong>{NAMES[season]}.</strong> {wordsOfPiece(piece, movement.air, season, show).join(" ")}
            </p>
          ))}
          <p className="note">
            {changeTo(movement.air, "dry").toPct < 6 || changeTo(movement.air, "damp").toPct > 14
              ? "Moisture beyond 6 to 14 % is reckoned by the wide-range rule. "
              : ""}
            Boards are rarely sawn perfectly flat or on the quarter, so widths are overestimated. Along the grain wood is taken as
            still.
          </p>
        </Why>
      ) : null}
    </li>
  );
}

const signed = (mm: number, show: (mm: number) => string): string =>
  Math.abs(mm) < 0.005 ? show(0) : `${mm < 0 ? "−" : "+"}${show(Math.abs(mm))}`;

/** Every wood of the table, with where its figures come from and how well they are known. */
function Woods() {
  const [wanted, setWanted] = useState<string>();
  const shown = WOOD_SPECIES.find(({ id }) => id === wanted);
  return (
    <section className="fitp-block" aria-labelledby="woods-title">
      <h2 id="woods-title">The woods and their sources</h2>
      <Why label={`${WOOD_SPECIES.length} woods: figures, sources, and how each was got`}>
        <Wide label="Table of the woods">
          <table className="fitp-table">
            <thead>
              <tr>
                <th scope="col">Wood</th>
                <th scope="col" className="right">
                  On the quarter
                </th>
                <th scope="col" className="right">
                  Flat
                </th>
                <th scope="col" className="right">
                  kg/m³
                </th>
                <th scope="col">Known</th>
                <th scope="col">
                  <span className="unseen">Sources</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {WOOD_SPECIES.map((wood) => (
                <tr key={wood.id}>
                  <th scope="row">
                    {wood.common} <i className="note">{wood.latin}</i>
                  </th>
                  <td className="right num">{wood.movement.radial.toFixed(5)}</td>
                  <td className="right num">{wood.movement.tangential.toFixed(5)}</td>
                  <td className="right num">{wood.weight.densityAt12PctKgM3 ?? "–"}</td>
                  <td>{wood.movement.basis === "table" ? "printed" : "computed"}</td>
                  <td>
                    <Button
                      look="link"
                      label={`Sources of ${wood.common}`}
                      pressed={wanted === wood.id}
                      onClick={() => setWanted(wanted === wood.id ? undefined : wood.id)}
                    >
                      sources
                    </Button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Wide>
        {shown ? <Sources wood={shown} /> : null}
        <p className="note">Change of size for 1 % of moisture, as a part of the size at 10 %; weight at 12 %.</p>
      </Why>
    </section>
  );
}

function Sources({ wood }: { readonly wood: WoodSpecies }) {
  const rows = [
    ["Movement", wood.movement.source, wood.movement.mark],
    ["Shrinkage", wood.shrinkage.source, wood.shrinkage.mark],
    ["Weight", wood.weight.source ?? "none known", wood.weight.mark ?? ""],
  ] as const;
  return (
    <dl className="fitp-sources" aria-live="polite">
      <dt>{wood.common}</dt>
      {rows.map(([name, source, mark]) => (
        <dd key={name}>
          <strong>{name}:</strong> {source}. <span className="note">{mark}</span>
        </dd>
      ))}
      {wood.note ? <dd className="note">{wood.note}</dd> : null}
    </dl>
  );
}
