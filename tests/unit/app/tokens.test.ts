import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const modules = readdirSync('app', { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.module.css'));
const withoutComments = (css: string): string => css.replaceAll(/\/\*[\s\S]*?\*\//g, '');

describe('raw colours and pixels live in the tokens', () => {
  it.each(modules)('%s has none', (file) => {
    const css = withoutComments(readFileSync(join('app', file), 'utf8')).replaceAll(/@media[^{]*/g, '');
    expect(css.match(/#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(/gi)).toBeNull();
    expect(css.match(/\b(?!0px)\d*\.?\d+px\b/g)).toBeNull();
  });
});

it('keeps all CSS modules under 25 kB', () => {
  const bytes = modules.reduce((sum, file) => sum + readFileSync(join('app', file)).length, 0);
  expect(bytes).toBeLessThan(25_000);
});
