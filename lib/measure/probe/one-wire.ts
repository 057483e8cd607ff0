/**
 * Temperature of a one-wire digital thermometer's scratchpad word: two's complement, 16 bits, a sixteenth of a degree each (DS18B20
 * data sheet, table "temperature/data relationship"). `word` from 0 to 0xFFFF; °C, or `null` outside of −55 to 125 °C, which the part cannot
 * mean. Its power-on word 0x0550 is 85 °C like any other here: whether it was a temperature is told by what came before it.
 */
export const celsiusOfOneWire = (word: number): number | null => {
  if (!Number.isInteger(word) || word < 0 || word > 0xffff) return null;
  const celsius = (word > 0x7fff ? word - 0x1_0000 : word) / 16;
  return celsius >= -55 && celsius <= 125 ? celsius : null;
};
