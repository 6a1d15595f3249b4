/** Which side a view from the side shows: with the head at the left and the face up, that of falling y. */
export const seenSide = ({ side }: { readonly side: 1 | -1 }): "bass" | "treble" => (side === 1 ? "bass" : "treble");
