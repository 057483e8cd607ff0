/**
 * Worked over-pours, computed independently of this project: SciPy's HiGHS, the optimum found again by enumerating vertices, the duality
 * gap printed beside it. Masses in grams; pure alkali; superfat s = 1 − (alkali − acid demand) / fat demand; saponification values 190
 * (olive), 257 (coconut), 199 (palm) mg KOH/g; NaOH per KOH 0.7128875397. Agreement asked for: objective 0.001 g, outcome 0.001 %.
 */
export interface WorkedLine {
  readonly name: string;
  /** Reference, lower and upper bound of the final mass; `null`: none. */
  readonly ref: number;
  readonly lo: number;
  readonly hi: number | null;
  /** What a gram above and below the reference costs. */
  readonly up: number;
  readonly dn: number;
  /** Already in. */
  readonly in: number;
  readonly sv: number;
}

export interface WorkedCase {
  readonly id: string;
  readonly story: string;
  readonly lines: readonly WorkedLine[];
  /** Σ coefficient × final ≤ most. */
  readonly limits: readonly { readonly name: string; readonly coefficients: Readonly<Record<string, number>>; readonly most: number }[];
  readonly objective: number | null;
  readonly final: Readonly<Record<string, number>>;
  readonly multipliers: Readonly<Record<string, number>>;
  /** Percent; batter and fats in grams. */
  readonly outcome: Readonly<Record<string, number>>;
  readonly clash: { readonly limits: Readonly<Record<string, number>>; readonly relaxation: number } | null;
}

export const CASES: readonly WorkedCase[] = [
  {
    id: 'R1',
    story:
      'Coconut 318.0 g in the pot instead of 300.0 g. Nothing else poured. Share limits are plan +-2 points for olive and palm; coconut may be at most 31 %.',
    lines: [
      {
        name: 'coconut',
        ref: 318.0,
        lo: 318.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 318.0,
        sv: 257.0,
      },
      {
        name: 'olive',
        ref: 450.0,
        lo: 0.0,
        hi: 2000.0,
        up: 1,
        dn: 1,
        in: 0.0,
        sv: 190.0,
      },
      {
        name: 'palm',
        ref: 250.0,
        lo: 0.0,
        hi: 2000.0,
        up: 1,
        dn: 1,
        in: 0.0,
        sv: 199.0,
      },
      {
        name: 'naoh',
        ref: 143.812586,
        lo: 0.0,
        hi: 500.0,
        up: 1,
        dn: 1,
        in: 0.0,
        sv: 0.0,
      },
      {
        name: 'water',
        ref: 287.625171,
        lo: 0.0,
        hi: 1000.0,
        up: 1,
        dn: 1,
        in: 0.0,
        sv: 0.0,
      },
    ],
    limits: [
      {
        name: 'share_max_coconut',
        coefficients: {
          olive: -0.31,
          coconut: 0.69,
          palm: -0.31,
        },
        most: 0.0,
      },
      {
        name: 'share_min_olive',
        coefficients: {
          olive: -0.57,
          coconut: 0.43,
          palm: 0.43,
        },
        most: 0.0,
      },
      {
        name: 'share_max_olive',
        coefficients: {
          olive: 0.53,
          coconut: -0.47,
          palm: -0.47,
        },
        most: 0.0,
      },
      {
        name: 'share_min_palm',
        coefficients: {
          olive: 0.23,
          coconut: 0.23,
          palm: -0.77,
        },
        most: 0.0,
      },
      {
        name: 'share_max_palm',
        coefficients: {
          olive: -0.27,
          coconut: -0.27,
          palm: 0.73,
        },
        most: 0.0,
      },
      {
        name: 'superfat_min',
        coefficients: {
          naoh: 1.0,
          olive: -0.130030687,
          coconut: -0.175883614,
          palm: -0.136190036,
        },
        most: 0.0,
      },
      {
        name: 'superfat_max',
        coefficients: {
          naoh: -1.0,
          olive: 0.127321715,
          coconut: 0.172219372,
          palm: 0.133352743,
        },
        most: 0.0,
      },
      {
        name: 'concentration_min',
        coefficients: {
          naoh: -0.7,
          water: 0.3,
        },
        most: 0.0,
      },
      {
        name: 'concentration_max',
        coefficients: {
          naoh: 0.64,
          water: -0.36,
        },
        most: 0.0,
      },
    ],
    objective: 10.386514,
    final: {
      coconut: 318.0,
      olive: 457.806452,
      palm: 250.0,
      naoh: 146.392648,
      water: 287.625171,
    },
    multipliers: {
      share_max_coconut: 3.636522,
      superfat_max: 1.0,
    },
    outcome: {
      superfat_pct: 6.0,
      fats_g: 1025.806452,
      share_olive_pct: 44.628931,
      share_coconut_pct: 31.0,
      share_palm_pct: 24.371069,
      lye_concentration_pct: 33.72964,
      batter_g: 1459.824271,
    },
    clash: null,
  },
  {
    id: 'R2',
    story:
      'Pure NaOH 155.0 g dissolved in 287.625 g water (plan 143.812586). Superfat would be -2.39 %: lye-heavy, so "accept" must not be offered. Coconut stock left: 25 g.',
    lines: [
      {
        name: 'coconut',
        ref: 300.0,
        lo: 300.0,
        hi: 325.0,
        up: 1,
        dn: 1,
        in: 300.0,
        sv: 257.0,
      },
      {
        name: 'olive',
        ref: 450.0,
        lo: 450.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 450.0,
        sv: 190.0,
      },
      {
        name: 'palm',
        ref: 250.0,
        lo: 250.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 250.0,
        sv: 199.0,
      },
      {
        name: 'naoh',
        ref: 155.0,
        lo: 155.0,
        hi: 155.0,
        up: 1,
        dn: 1,
        in: 155.0,
        sv: 0.0,
      },
      {
        name: 'water',
        ref: 287.625171,
        lo: 287.625171,
        hi: null,
        up: 1,
        dn: 1,
        in: 287.625171,
        sv: 0.0,
      },
    ],
    limits: [
      {
        name: 'share_max_coconut',
        coefficients: {
          olive: -0.33,
          coconut: 0.67,
          palm: -0.33,
        },
        most: 0.0,
      },
      {
        name: 'share_max_olive',
        coefficients: {
          olive: 0.52,
          coconut: -0.48,
          palm: -0.48,
        },
        most: 0.0,
      },
      {
        name: 'share_max_palm',
        coefficients: {
          olive: -0.28,
          coconut: -0.28,
          palm: 0.72,
        },
        most: 0.0,
      },
      {
        name: 'superfat_min',
        coefficients: {
          naoh: 1.0,
          olive: -0.131385174,
          coconut: -0.177715735,
          palm: -0.137608682,
        },
        most: 0.0,
      },
      {
        name: 'superfat_max',
        coefficients: {
          naoh: -1.0,
          olive: 0.124612742,
          coconut: 0.16855513,
          palm: 0.130515451,
        },
        most: 0.0,
      },
      {
        name: 'concentration_min',
        coefficients: {
          naoh: -0.72,
          water: 0.28,
        },
        most: 0.0,
      },
      {
        name: 'concentration_max',
        coefficients: {
          naoh: 0.62,
          water: -0.38,
        },
        most: 0.0,
      },
      {
        name: 'batter_capacity',
        coefficients: {
          coconut: 1.0,
          olive: 1.0,
          palm: 1.0,
          naoh: 1.0,
          water: 1.0,
        },
        most: 1600.0,
      },
    ],
    objective: 52.010561,
    final: {
      coconut: 325.0,
      olive: 450.0,
      palm: 277.010561,
      naoh: 155.0,
      water: 287.625171,
    },
    multipliers: {
      superfat_min: 7.266983,
    },
    outcome: {
      superfat_pct: 3.0,
      fats_g: 1052.010561,
      share_olive_pct: 42.775236,
      share_coconut_pct: 30.893226,
      share_palm_pct: 26.331538,
      lye_concentration_pct: 35.018343,
      batter_g: 1494.635732,
    },
    clash: null,
  },
  {
    id: 'R3',
    story:
      'Water 400.0 g instead of 287.625 g: lye concentration 26.4 %, floor 28 %. More hydroxide may be dissolved, slowly, in the COOLED lye (hydroxide into liquid; never after joining).',
    lines: [
      {
        name: 'coconut',
        ref: 300.0,
        lo: 300.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 300.0,
        sv: 257.0,
      },
      {
        name: 'olive',
        ref: 450.0,
        lo: 450.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 450.0,
        sv: 190.0,
      },
      {
        name: 'palm',
        ref: 250.0,
        lo: 250.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 250.0,
        sv: 199.0,
      },
      {
        name: 'naoh',
        ref: 143.812586,
        lo: 143.812586,
        hi: 400.0,
        up: 1,
        dn: 1,
        in: 143.812586,
        sv: 0.0,
      },
      {
        name: 'water',
        ref: 400.0,
        lo: 400.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 400.0,
        sv: 0.0,
      },
    ],
    limits: [
      {
        name: 'share_max_coconut',
        coefficients: {
          olive: -0.32,
          coconut: 0.68,
          palm: -0.32,
        },
        most: 0.0,
      },
      {
        name: 'share_max_olive',
        coefficients: {
          olive: 0.52,
          coconut: -0.48,
          palm: -0.48,
        },
        most: 0.0,
      },
      {
        name: 'share_max_palm',
        coefficients: {
          olive: -0.28,
          coconut: -0.28,
          palm: 0.72,
        },
        most: 0.0,
      },
      {
        name: 'superfat_min',
        coefficients: {
          naoh: 1.0,
          olive: -0.131385174,
          coconut: -0.177715735,
          palm: -0.137608682,
        },
        most: 0.0,
      },
      {
        name: 'superfat_max',
        coefficients: {
          naoh: -1.0,
          olive: 0.124612742,
          coconut: 0.16855513,
          palm: 0.130515451,
        },
        most: 0.0,
      },
      {
        name: 'concentration_min',
        coefficients: {
          naoh: -0.72,
          water: 0.28,
        },
        most: 0.0,
      },
      {
        name: 'concentration_max',
        coefficients: {
          naoh: 0.62,
          water: -0.38,
        },
        most: 0.0,
      },
    ],
    objective: 64.342285,
    final: {
      coconut: 336.831781,
      olive: 450.0,
      palm: 265.767534,
      naoh: 155.555556,
      water: 400.0,
    },
    multipliers: {
      share_max_coconut: 0.266593,
      superfat_min: 6.647038,
      concentration_min: 10.620887,
    },
    outcome: {
      superfat_pct: 3.0,
      fats_g: 1052.599315,
      share_olive_pct: 42.75131,
      share_coconut_pct: 32.0,
      share_palm_pct: 25.24869,
      lye_concentration_pct: 28.0,
      batter_g: 1608.154871,
    },
    clash: null,
  },
  {
    id: 'R7',
    story:
      '155.0 g dry in the cup, target 143.812586 g. Nothing dissolved. Zero-addition remedy: spoon out; never back into the stock container.',
    lines: [
      {
        name: 'coconut',
        ref: 300.0,
        lo: 300.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 300.0,
        sv: 257.0,
      },
      {
        name: 'olive',
        ref: 450.0,
        lo: 450.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 450.0,
        sv: 190.0,
      },
      {
        name: 'palm',
        ref: 250.0,
        lo: 250.0,
        hi: null,
        up: 1,
        dn: 1,
        in: 250.0,
        sv: 199.0,
      },
      {
        name: 'naoh',
        ref: 143.812586,
        lo: 0.0,
        hi: 155.0,
        up: 1,
        dn: 1,
        in: 155.0,
        sv: 0.0,
      },
      {
        name: 'water',
        ref: 287.625171,
        lo: 0.0,
        hi: 287.625171,
        up: 1,
        dn: 1,
        in: 287.625171,
        sv: 0.0,
      },
    ],
    limits: [
      {
        name: 'superfat_min',
        coefficients: {
          naoh: 1.0,
          olive: -0.131385174,
          coconut: -0.177715735,
          palm: -0.137608682,
        },
        most: 0.0,
      },
      {
        name: 'superfat_max',
        coefficients: {
          naoh: -1.0,
          olive: 0.124612742,
          coconut: 0.16855513,
          palm: 0.130515451,
        },
        most: 0.0,
      },
      {
        name: 'concentration_min',
        coefficients: {
          naoh: -0.72,
          water: 0.28,
        },
        most: 0.0,
      },
      {
        name: 'concentration_max',
        coefficients: {
          naoh: 0.62,
          water: -0.38,
        },
        most: 0.0,
      },
      {
        name: 'share_max_coconut',
        coefficients: {
          olive: -0.32,
          coconut: 0.68,
          palm: -0.32,
        },
        most: 0.0,
      },
    ],
    objective: 0.0,
    final: {
      coconut: 300.0,
      olive: 450.0,
      palm: 250.0,
      naoh: 143.812586,
      water: 287.625171,
    },
    multipliers: {},
    outcome: {
      superfat_pct: 5.0,
      fats_g: 1000.0,
      share_olive_pct: 45.0,
      share_coconut_pct: 30.0,
      share_palm_pct: 25.0,
      lye_concentration_pct: 33.333333,
      batter_g: 1431.437757,
    },
    clash: null,
  },
  {
    id: 'R9',
    story: 'As R2 but stock: coconut 10 g, palm 15 g, olive 10 g.',
    lines: [
      {
        name: 'coconut',
        ref: 300.0,
        lo: 300.0,
        hi: 310.0,
        up: 1,
        dn: 1,
        in: 300.0,
        sv: 257.0,
      },
      {
        name: 'olive',
        ref: 450.0,
        lo: 450.0,
        hi: 460.0,
        up: 1,
        dn: 1,
        in: 450.0,
        sv: 190.0,
      },
      {
        name: 'palm',
        ref: 250.0,
        lo: 250.0,
        hi: 265.0,
        up: 1,
        dn: 1,
        in: 250.0,
        sv: 199.0,
      },
      {
        name: 'naoh',
        ref: 155.0,
        lo: 155.0,
        hi: 155.0,
        up: 1,
        dn: 1,
        in: 155.0,
        sv: 0.0,
      },
      {
        name: 'water',
        ref: 287.625171,
        lo: 287.625171,
        hi: null,
        up: 1,
        dn: 1,
        in: 287.625171,
        sv: 0.0,
      },
    ],
    limits: [
      {
        name: 'superfat_min',
        coefficients: {
          naoh: 1.0,
          olive: -0.131385174,
          coconut: -0.177715735,
          palm: -0.137608682,
        },
        most: 0.0,
      },
      {
        name: 'superfat_max',
        coefficients: {
          naoh: -1.0,
          olive: 0.124612742,
          coconut: 0.16855513,
          palm: 0.130515451,
        },
        most: 0.0,
      },
      {
        name: 'concentration_min',
        coefficients: {
          naoh: -0.72,
          water: 0.28,
        },
        most: 0.0,
      },
      {
        name: 'concentration_max',
        coefficients: {
          naoh: 0.62,
          water: -0.38,
        },
        most: 0.0,
      },
    ],
    objective: null,
    final: {},
    multipliers: {},
    outcome: {},
    clash: {
      limits: {
        superfat_min: 1.0,
      },
      relaxation: 3.004642,
    },
  },
];
