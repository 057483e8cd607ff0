import { runPart, type Part } from './parts';

/** One calculating process of `crew.ts`: a part in, its tally out. */
process.on('message', (part: Part) => process.send?.(runPart(part)));
