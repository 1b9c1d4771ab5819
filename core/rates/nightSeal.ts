// What closes an open edge for the night, by the metre. Generic (common practice, no source).
export const SHIPPED_NIGHT_SEAL = {
  name: 'Night seal strip',
  packName: 'roll',
  packSize: 20,
  price: '24.00',
  packMass: 5,
};
