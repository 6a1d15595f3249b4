export function SheetsPlace() {
  return null;
}
