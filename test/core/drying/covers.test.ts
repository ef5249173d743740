import { expect, test } from 'vitest'
import { saturationPressurePa } from '#core/air/psychrometrics.ts'
import { filmOver } from '#core/drying/airFilm.ts'
import { defaultPermeance } from '#core/drying/covers.ts'
import { coverFilms, coverLeaks } from '../../golden/drying/coverFilms.ts'

const IN2_M2 = 0.0254 ** 2
/** kg/(m2 s Pa): 64.79891 mg per grain, 0.09290304 m2, 3600 s, 3386.389 Pa. */
const PERM = 64.79891e-6 / 0.09290304 / 3600 / 3386.389

test.each(coverFilms)('$film passes what is published', (film) => {
  const kgM2S = 'perms' in film ? film.perms * PERM : film.gramsPer100In2Day / 1000 / (100 * IN2_M2) / 86_400
  const pressurePa = 'perms' in film ? 1 : 0.9 * saturationPressurePa(38)
  expect(Math.abs(kgM2S / pressurePa / film.permeance - 1)).toBeLessThan(0.03)
})

test.each(coverLeaks)('%s lets through from %s to %s', (cover, low, high) => {
  expect(defaultPermeance[cover].value).toBeGreaterThanOrEqual(low)
  expect(defaultPermeance[cover].value).toBeLessThanOrEqual(high)
})

test('an intact film passes some 1/300 of what open air takes, or less: covered ware dries through leaks', () => {
  const open = filmOver(20, 0.1, 0.3).vapourKgM2SPa
  for (const { film, permeance } of coverFilms)
    if (!film.startsWith('gypsum')) expect(open / permeance).toBeGreaterThan(300)
  expect(defaultPermeance.sealed.value).toBeGreaterThan(4.5e-11)
})
