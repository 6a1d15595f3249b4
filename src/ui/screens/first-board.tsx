export function FirstBoard() {
  return null;
}
