import { run } from './run';

try {
  process.exitCode = run(process.argv.slice(2), (line) => console.log(line));
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  process.exitCode = 2;
}
