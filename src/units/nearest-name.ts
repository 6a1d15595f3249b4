/**
 * The known name that was probably meant by an unknown one, or undefined where none is near. Letters left out, added, changed or
 * swapped with their neighbour each count one (optimal string alignment distance); capitals do not count. Up to a third of the
 * letters may be wrong (one of two, none of one), and the last link of a dotted name may stand for the whole: `overhang` for `fingerboard.overhang`.
 */
export function nearestName(name: string, known: readonly string[]): string | undefined {
  const meant = name.toLowerCase();
  const most = meant.length < 2 ? 0 : Math.max(1, Math.floor(meant.length / 3));
  let best: string | undefined;
  let least = most + 1;
  for (const candidate of known) {
    const whole = candidate.toLowerCase();
    const last = whole.slice(whole.lastIndexOf(".") + 1);
    const steps = Math.min(distance(meant, whole, most), distance(meant, last, most));
    if (steps < least) {
      best = candidate;
      least = steps;
    }
  }
  return best;
}

/** Count of single changes from a to b; anything over `most` may be given as Infinity. */
function distance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return Infinity;
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? before[j - 2]! + 1 : Infinity;
      next.push(Math.min(changed, swapped, row[j]! + 1, next[j - 1]! + 1));
    }
    before = row;
    row = next;
  }
  return row[b.length]!;
}
