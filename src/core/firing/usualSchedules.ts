import type { FiringSchedule, FiringSegment } from './types.ts'

/**
 * Firing schedules to start from: bisque to cone 06 and 04, glaze to cone 6 and 10, each slow, medium and fast.
 *
 * Composed by the Wareboard authors inside published ranges (common practice). Their tops are set so that the heat-work model
 * puts the cone at 0.9-1.05 of its work; a witness cone has the last word. Compare, published: Hesselberth & Roy 2002 (glaze 6),
 * Mahaffey 2020 (bisque), and two UK clay suppliers: under 100 °C/h to 600 °C, then 100-200 °C/h, 30 min soak. Candling is an
 * hour at least even in the fast ones.
 */
export const usualSchedules: readonly FiringSchedule[] = [
  {
    id: 'slow-bisque-06',
    name: 'Slow bisque, cone 06',
    kind: 'bisque',
    cone: '06',
    segments: [ramp(60, 90, 240), ramp(60, 250), ramp(80, 600), ramp(60, 650), ramp(100, 900), ramp(60, 998)],
  },
  {
    id: 'medium-bisque-06',
    name: 'Medium bisque, cone 06',
    kind: 'bisque',
    cone: '06',
    segments: [ramp(80, 90, 120), ramp(80, 250), ramp(110, 600), ramp(110, 900), ramp(60, 998)],
  },
  {
    id: 'fast-bisque-06',
    name: 'Fast bisque, cone 06',
    kind: 'bisque',
    cone: '06',
    segments: [ramp(100, 95, 60), ramp(120, 250), ramp(150, 600), ramp(180, 900), ramp(100, 1006)],
  },
  {
    id: 'slow-bisque-04',
    name: 'Slow bisque, cone 04',
    kind: 'bisque',
    cone: '04',
    segments: [ramp(60, 90, 240), ramp(60, 250), ramp(80, 600), ramp(60, 650), ramp(100, 960), ramp(60, 1063)],
  },
  {
    id: 'medium-bisque-04',
    name: 'Medium bisque, cone 04',
    kind: 'bisque',
    cone: '04',
    segments: [ramp(80, 90, 120), ramp(80, 250), ramp(110, 600), ramp(110, 960), ramp(60, 1063)],
  },
  {
    id: 'fast-bisque-04',
    name: 'Fast bisque, cone 04',
    kind: 'bisque',
    cone: '04',
    segments: [ramp(100, 95, 60), ramp(120, 250), ramp(150, 600), ramp(180, 960), ramp(100, 1070)],
  },
  {
    id: 'slow-glaze-6',
    name: 'Slow glaze, cone 6',
    kind: 'glaze',
    cone: '6',
    segments: [ramp(80, 120), ramp(150, 1100), ramp(60, 1208, 15)],
  },
  {
    id: 'medium-glaze-6',
    name: 'Medium glaze, cone 6',
    kind: 'glaze',
    cone: '6',
    segments: [ramp(100, 120), ramp(200, 1110), ramp(80, 1214, 15)],
  },
  {
    id: 'fast-glaze-6',
    name: 'Fast glaze, cone 6',
    kind: 'glaze',
    cone: '6',
    segments: [ramp(150, 120), ramp(300, 1120), ramp(110, 1236)],
  },
  {
    id: 'slow-glaze-10',
    name: 'Slow glaze, cone 10',
    kind: 'glaze',
    cone: '10',
    segments: [ramp(80, 120), ramp(150, 1160), ramp(60, 1270, 15)],
  },
  {
    id: 'medium-glaze-10',
    name: 'Medium glaze, cone 10',
    kind: 'glaze',
    cone: '10',
    segments: [ramp(100, 120), ramp(200, 1170), ramp(80, 1276, 15)],
  },
  {
    id: 'fast-glaze-10',
    name: 'Fast glaze, cone 10',
    kind: 'glaze',
    cone: '10',
    segments: [ramp(150, 120), ramp(280, 1180), ramp(110, 1298)],
  },
]

function ramp(rateCPerH: number, targetC: number, holdMin = 0): FiringSegment {
  return { rateCPerH, targetC, holdMin }
}
