export default function BenchPage() {
  return <main data-light="bench">0123</main>;
}
