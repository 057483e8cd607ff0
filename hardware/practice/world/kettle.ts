/** A vessel that warms and cools, or the room. Temperatures in °C, times in seconds. */
export interface Kettle {
  readonly celsius: number;
  /** `dt` seconds in a room of `room` °C, in which it cools or warms `times` as much. Heat of dissolution is never hurried: a probe could not follow. */
  advance(dt: number, room: number, times?: number): void;
  /** Into a bath of this temperature, until the vessel has reached `until` or this long has passed. */
  bathe(bath: Bath): void;
  readonly bathing: boolean;
  /** Another filling, at this temperature; `gently`, its probe takes it on little by little: a leap looks like a probe just dipped in. */
  refill(celsius: number, gently?: boolean): void;
  /** Heat of dissolution: rises by this much above what it has now, most of it within a minute. */
  heat(kelvin: number): void;
}

export interface Bath {
  readonly celsius: number;
  readonly seconds: number;
  /** `null`: only the time ends it. */
  readonly until: number | null;
}

export interface KettleModel {
  readonly start: number;
  /** Rate towards the room: dT/dt = −rate·|ΔT|^power. Convection makes the power 1 to 1.33. */
  readonly rate: number;
  readonly power: number;
  /** Rate in a bath, plain Newton: water carries heat off by stirring. */
  readonly bathRate: number;
  /** Fats that crystallise around this temperature give heat back and slow the cooling; `null` for lye. */
  readonly setsAt: number | null;
}

/** Chosen to look like a kitchen: lye from 82 to 45 °C in about three quarters of an hour, a pot of oils slower. No source. */
export const LYE_KETTLE: KettleModel = { start: 19.5, rate: 1.35e-4, power: 1.25, bathRate: 0.0026, setsAt: null };
export const OILS_KETTLE: KettleModel = { start: 45, rate: 8e-5, power: 1.2, bathRate: 0.0018, setsAt: 29 };

/** Time constant of dissolution, s: climbs by about 2 K a second at most (common practice, no source). */
const DISSOLVING = 30;
/** Time constant of another filling, s: 25 K come in steps of less than 0.3 K a second. */
const REFILLING = 90;

export const createKettle = (model: KettleModel): Kettle => {
  let celsius = model.start;
  let bath: (Bath & { left: number }) | null = null;
  let heat = 0;
  let other = 0;

  const step = (dt: number, room: number, times: number): void => {
    const dissolved = heat * (1 - Math.exp(-dt / DISSOLVING));
    const filled = other * (1 - Math.exp(-dt / REFILLING));
    [heat, other] = [heat - dissolved, other - filled];
    const apart = celsius - (bath?.celsius ?? room);
    const flow = bath === null ? model.rate * Math.abs(apart) ** model.power * Math.sign(apart) : model.bathRate * apart;
    celsius += dissolved + filled - (flow * dt * times) / stall(celsius, model.setsAt);
    if (bath === null) return;
    bath.left -= dt * times;
    if (bath.left <= 0 || reached(celsius, bath)) bath = null;
  };

  return {
    get celsius() {
      return celsius;
    },
    get bathing() {
      return bath !== null;
    },
    advance(dt, room, times = 1) {
      const steps = Math.ceil(dt * times);
      for (let i = 0; i < steps; i += 1) step(dt / steps, room, times);
    },
    bathe: (asked) => void (bath = { ...asked, left: asked.seconds }),
    refill(fresh, gently = false) {
      if (!gently) celsius = fresh;
      other = fresh - celsius;
      bath = null;
      heat = 0;
    },
    heat: (kelvin) => void (heat += kelvin),
  };
};

const reached = (celsius: number, bath: Bath): boolean =>
  bath.until !== null && (bath.celsius < bath.until ? celsius <= bath.until : celsius >= bath.until);

/** Apparent heat capacity beside plain: up to four times within about a degree of where fats set. */
const stall = (celsius: number, setsAt: number | null): number =>
  setsAt === null ? 1 : 1 + 3 * Math.exp(-(((celsius - setsAt) / 0.8) ** 2));
