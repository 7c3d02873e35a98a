/** Hagenbach's correction for a round tube: what run-in adds to the drop of developed flow, in velocity heads (Shah & London 1978). */
const runInHeads = 1.25;
/** How fast it builds up in a round tube (Shah 1978). */
const runInRate = 0.000212;

/**
 * Fanning friction factor times Reynolds number of flow that enters a smooth duct with one velocity all over, averaged over the
 * duct's length; laminar, turbulent and between.
 *
 * Laminar: Shah, J. Fluids Eng. 100 (1978) 177-179, `3.44/sqrt(x) + (developed + K/(4x) - 3.44/sqrt(x))/(1 + C/x^2)` with
 * `x = length / (diameter Re)`, within 2.4 % for the shapes he lists; `K` and `C` are those of the round tube for every outline (K is 0.7
 * in a slit and 1.8 in a triangle), `developed` is the outline's own. Turbulent: Churchill, Chem. Eng. 84 (7 Nov 1977) 91-92, smooth
 * wall, at the laminar-equivalent Reynolds number `16 Re / developed` of Jones, J. Fluids Eng. 98 (1976) 173-181. Both are joined by
 * Churchill's power of 12, so that turbulence sets in between Reynolds numbers of about 2100 and 3000; that it is joined to Shah's figure
 * and not to the developed one was derived here. The short run-in of turbulent flow is left out.
 *
 * @param reynolds on mean velocity and hydraulic diameter
 * @param developed `f Re` of laminar developed flow: 16 in a round tube
 * @param diameters length over hydraulic diameter, above 0
 */
export function apparentFriction(reynolds: number, developed: number, diameters: number): number {
  const x = diameters / reynolds;
  const entering = 3.44 / Math.sqrt(x);
  const laminar = entering + (developed + runInHeads / (4 * x) - entering) / (1 + runInRate / (x * x));
  const turbulent = turbulentFriction((16 * reynolds) / developed) * reynolds;
  const ratio = (turbulent / laminar) ** 2;
  return laminar * Math.cbrt(Math.sqrt(Math.sqrt(1 + (ratio * ratio * ratio) ** 2)));
}

/** Fanning friction factor of a smooth round tube, the turbulent part of Churchill's. */
function turbulentFriction(reynolds: number): number {
  const a = sixteenth(2.457 * 0.9 * Math.log(reynolds / 7));
  const b = sixteenth(37_530 / reynolds);
  return 2 / Math.sqrt(Math.sqrt(Math.sqrt(a + b)));
}

/** To the power of 16; `Math.pow` would take most of a filling's time. */
function sixteenth(x: number): number {
  const fourth = x * x * (x * x);
  const eighth = fourth * fourth;
  return eighth * eighth;
}
