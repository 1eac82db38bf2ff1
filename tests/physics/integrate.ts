/** Plain numerical integration, for holding closed forms and coarse rules against. */

/** Integral of `f` from `a` to `b` by Simpson's rule over `panels` (even) equal steps. */
export function simpson(f: (x: number) => number, a: number, b: number, panels = 2000): number {
  const step = (b - a) / panels;
  let sum = f(a) + f(b);
  for (let i = 1; i < panels; i += 1) sum += f(a + i * step) * (i % 2 === 1 ? 4 : 2);
  return (sum * step) / 3;
}

/** Solution of `dy/dt = f(t, y)` at `end` from `y0` at `start`, classical Runge-Kutta of fourth order. */
export function rungeKutta(
  f: (t: number, y: number) => number,
  y0: number,
  start: number,
  end: number,
  steps = 2000,
): number {
  const h = (end - start) / steps;
  let y = y0;
  for (let i = 0; i < steps; i += 1) {
    const t = start + i * h;
    const a = f(t, y);
    const b = f(t + h / 2, y + (h / 2) * a);
    const c = f(t + h / 2, y + (h / 2) * b);
    const d = f(t + h, y + h * c);
    y += (h / 6) * (a + 2 * b + 2 * c + d);
  }
  return y;
}
