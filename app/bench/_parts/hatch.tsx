/** The hatching that stands where a value is not fresh, for every drawing of the page. */
export function Hatch() {
  return (
    <svg width="0" height="0" style={{ position: 'absolute' }} aria-hidden="true" focusable="false">
      <defs>
        <pattern id="hatch" width="20" height="20" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <rect width="20" height="8" fill="var(--quiet)" />
        </pattern>
      </defs>
    </svg>
  );
}
