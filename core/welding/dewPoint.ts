/** Magnus's formula with the constants of D. Sonntag (1990): °C of the dew point, from air in °C and humidity in %. */
export function dewPoint(celsius: number, humidity: number): number {
  const gamma = Math.log(humidity / 100) + (17.62 * celsius) / (243.12 + celsius);
  return (243.12 * gamma) / (17.62 - gamma);
}
