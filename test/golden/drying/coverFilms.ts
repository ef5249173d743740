/**
 * Films as published, and what that is in kg/(m2 s Pa). Grams per 100 square inches and day at 38 °C, 90 %: Biosystems
 * Engineering, chapter on food package engineering, table 11.2; perms (grain per square foot, hour and inch of mercury):
 * pages of film makers for 4 and 6 mil, ASHRAE Fundamentals ch. 26 for 2 mil (from memory).
 */
export const coverFilms = [
  { film: 'LDPE 25 µm, least', gramsPer100In2Day: 1, permeance: 3.0e-11 },
  { film: 'LDPE 25 µm, most', gramsPer100In2Day: 1.5, permeance: 4.5e-11 },
  { film: 'HDPE 25 µm, least', gramsPer100In2Day: 0.3, permeance: 0.9e-11 },
  { film: 'HDPE 25 µm, most', gramsPer100In2Day: 0.6, permeance: 1.8e-11 },
  { film: 'PE 2 mil', perms: 0.16, permeance: 9.1e-12 },
  { film: 'PE 4 to 6 mil', perms: 0.03, permeance: 1.7e-12 },
  { film: 'gypsum board 5/8 in', perms: 35, permeance: 2e-9 },
] as const

/** Between what leaks of covers are taken to lie (assumptions), kg/(m2 s Pa). */
export const coverLeaks = [
  ['sealed', 2e-11, 3e-10],
  ['tucked', 1e-10, 1e-9],
  ['loose', 1e-9, 1.6e-8],
  ['cloth', 5e-9, 3e-8],
] as const
