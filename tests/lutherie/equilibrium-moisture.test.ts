import { describe, expect, it } from "vitest";
import { equilibriumMoisturePct } from "../../src/lutherie/equilibrium-moisture.ts";

/** The same page of the handbook prints W, K, K1, K2 a second time for °F; a slip in any constant of ours would part the two. */
function byFahrenheit(f: number, h: number): number {
  const w = 330 + 0.452 * f + 0.00415 * f * f;
  const k = 0.791 + 0.000463 * f - 0.000000844 * f * f;
  const k1 = 6.34 + 0.000775 * f - 0.0000935 * f * f;
  const k2 = 1.09 + 0.0284 * f - 0.0000904 * f * f;
  const kh = k * h;
  return (1800 / w) * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh));
}

describe("equilibriumMoisturePct", () => {
  // USDA Wood Handbook, FPL-GTR-282 (2021), Table 4-2, as read in a copy: °C, % RH, % moisture.
  it.each([
    [21.1, 5, 1.3],
    [21.1, 30, 6.2],
    [21.1, 50, 9.2],
    [21.1, 75, 14.4],
    [21.1, 85, 17.9],
    [21.1, 95, 23.9],
    [37.8, 50, 8.7],
    [37.8, 90, 19.5],
    [-1.1, 75, 14.9],
    [-1.1, 95, 24.3],
  ])("agrees with the handbook's printed table at %d °C and %d %% RH: %d %%", (temperatureC, humidityPct, printed) => {
    expect(Math.abs(equilibriumMoisturePct(temperatureC, humidityPct) - printed)).toBeLessThanOrEqual(0.06);
  });

  // The rest of the table's 70 °F row, from memory.
  it.each([
    [40, 7.7],
    [45, 8.5],
    [60, 11.0],
    [65, 12.0],
    [70, 13.1],
    [80, 16.0],
  ])("agrees with the remembered row of 21.1 °C at %d %% RH: %d %%", (humidityPct, printed) => {
    expect(Math.abs(equilibriumMoisturePct(21.1, humidityPct) - printed)).toBeLessThanOrEqual(0.06);
  });

  // Eq. 4-5 worked once outside this project, to three decimals.
  it.each([
    [20, [6.188, 7.722, 8.485, 9.271, 11.0, 11.996, 13.129, 16.037]],
    [21.1, [6.17, 7.699, 8.459, 9.243, 10.965, 11.958, 13.088, 15.99]],
    [25, [6.096, 7.608, 8.359, 9.132, 10.832, 11.814, 12.931, 15.808]],
  ] as const)("reproduces the worked values of Eq. 4-5 at %d °C", (temperatureC, row) => {
    const humidities = [30, 40, 45, 50, 60, 65, 70, 80];
    row.forEach((expected, i) =>
      expect(Math.abs(equilibriumMoisturePct(temperatureC, humidities[i]!) - expected)).toBeLessThan(0.0006),
    );
  });

  it("agrees with the handbook's other set of constants, for degrees Fahrenheit, within 0.013 % over 0 to 40 °C", () => {
    let worst = 0;
    for (let t = 0; t <= 40; t += 1) {
      for (let rh = 5; rh <= 95; rh += 1) {
        worst = Math.max(worst, Math.abs(equilibriumMoisturePct(t, rh) - byFahrenheit(t * 1.8 + 32, rh / 100)));
      }
    }
    expect(worst).toBeLessThanOrEqual(0.0135);
  });

  it("rises with humidity, and from 10 °C up falls with temperature (below that the printed table is level too)", () => {
    for (let t = 10; t <= 55; t += 5) {
      for (let rh = 5; rh <= 90; rh += 5) {
        expect(equilibriumMoisturePct(t, rh + 5)).toBeGreaterThan(equilibriumMoisturePct(t, rh));
        expect(equilibriumMoisturePct(t + 5, rh)).toBeLessThan(equilibriumMoisturePct(t, rh));
      }
    }
  });

  it("refuses air that the handbook's table does not cover, and what is no number", () => {
    for (const [t, rh] of [
      [20, 4.9],
      [20, 95.1],
      [-2, 50],
      [61, 50],
      [Number.NaN, 50],
      [20, Number.NaN],
    ] as const) {
      expect(() => equilibriumMoisturePct(t, rh)).toThrow(RangeError);
    }
  });
});
