/**
 * A vessel as physics has it, not as the forecast does: a lump of liquid in a lump of wall. Heat goes by free convection, radiation and
 * evaporation, each by its own law; baths warm up; fats set with their latent heat. Round figures of ours; nothing is imported.
 */
export interface VesselNature {
  readonly kind: 'lye' | 'oils';
  /** J/K of the liquid and of the wall. */
  readonly liquid: number;
  readonly wall: number;
  /** W/K from liquid to wall. */
  readonly inner: number;
  /** m² of wall and of open surface. */
  readonly side: number;
  readonly top: number;
  /** W/(m² K^1.25) of free air, the emissivity of the wall, W/K into the bench. */
  readonly air: number;
  readonly emissivity: number;
  readonly bench: number;
  /** Activity of water in the liquid: what evaporates; 0 for oils. */
  readonly activity: number;
  /** Where and over how many kelvin a fat sets, and J it gives off in all; `null`: none does. */
  readonly setting: { readonly at: number; readonly over: number; readonly heat: number; readonly supercool: number } | null;
}

/** What is done to the vessel just now. */
export interface Hands {
  /** J/K of the bath it stands in and W/K of the wall to it; `null`: none. */
  readonly bath: { readonly capacity: number; readonly conductance: number } | null;
  /** W of a hob into the wall. */
  readonly hob: number;
  /** Times the inner exchange and the exchange of the surface. */
  readonly stirred: number;
  readonly lid: boolean;
}

export const NO_HANDS: Hands = { bath: null, hob: 0, stirred: 1, lid: false };

export interface VesselState {
  liquid: number;
  wall: number;
  bath: number;
  /** Share of the setting fat that has set, and whether it has begun. */
  set: number;
  begun: boolean;
}

const SIGMA = 5.67e-8;
const KELVIN = 273.15;
/** W/(m² Pa): evaporation from an open surface in still air, by the analogy of heat and mass. */
const EVAPORATION = 0.07;
const HUMIDITY = 0.5;

/** Pressure of water vapour, Pa, Magnus. */
const vapour = (celsius: number): number => 611 * Math.exp((17.6 * celsius) / (243 + celsius));

const radiated = (from: number, to: number): number => SIGMA * ((from + KELVIN) ** 4 - (to + KELVIN) ** 4);
const convected = (from: number, to: number): number => Math.sign(from - to) * Math.abs(from - to) ** 1.25;

/** `dt` seconds on, in place. */
export const advance = (state: VesselState, nature: VesselNature, hands: Hands, room: number, dt: number): void => {
  const { liquid, wall } = state;
  const exchange = nature.inner * hands.stirred * (liquid - wall);
  const cover = hands.lid ? 0.25 : 1;
  const brisk = Math.sqrt(hands.stirred);
  const surface =
    nature.top * cover * (nature.air * brisk * convected(liquid, room) + 0.93 * radiated(liquid, room)) +
    (hands.lid ? 0 : nature.top * brisk * EVAPORATION * Math.max(0, nature.activity * vapour(liquid) - HUMIDITY * vapour(room)));
  const { bath } = hands;
  const toBath = bath === null ? 0 : bath.conductance * (wall - state.bath);
  const open = bath === null ? 1 : 0.35;
  const outside =
    open * nature.side * (nature.air * convected(wall, room) + nature.emissivity * radiated(wall, room)) +
    (bath === null ? nature.bench * (wall - room) : 0);
  state.liquid += ((-exchange - surface) / nature.liquid) * dt;
  state.wall += ((exchange - outside - toBath + hands.hob) / nature.wall) * dt;
  if (bath !== null) state.bath += ((toBath - 4 * (state.bath - room)) / bath.capacity) * dt;
  crystallise(state, nature, dt);
};

/** A fat sets towards what its temperature allows, after some undercooling, and warms what it is in. */
const crystallise = (state: VesselState, { setting, liquid }: VesselNature, dt: number): void => {
  if (setting === null) return;
  if (!state.begun && state.liquid > setting.at - setting.supercool) return;
  state.begun = true;
  const allowed = Math.min(1, Math.max(0, (setting.at - state.liquid) / setting.over));
  const step = ((allowed - state.set) * dt) / 90;
  if (step <= 0 && state.set <= 0) return;
  state.set += step;
  state.liquid += (step * setting.heat) / liquid;
};
