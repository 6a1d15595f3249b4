/** Gives ids for the elements of one SVG file: kebab-case, starting with a letter, each used once. */
export function idGiver(): (wish: string) => string {
  const used = new Set<string>();
  return (wish) => {
    const plain =
      wish
        .normalize("NFD")
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, "-")
        .replace(/^-+|-+$/g, "") || "shape";
    const base = /^[a-z]/.test(plain) ? plain : `n-${plain}`;
    let id = base;
    for (let n = 2; used.has(id); n++) id = `${base}-${n}`;
    used.add(id);
    return id;
  };
}
