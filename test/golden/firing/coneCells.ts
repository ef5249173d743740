/**
 * Self-supporting cones in whole °F at 108 and 270 °F/h: an independent copy of the cone maker's sheet, against which the °C
 * table of the program is held. 32 cones, 64 cells; cones for which no such copy could be had are left out.
 * @see Edward Orton Jr. Ceramic Foundation, Temperature Equivalents for Orton Pyrometric Cones 022-14 (2016 sheet), °F columns
 */
export const fahrenheitCells = [
  ['022', 1087, 1094],
  ['021', 1112, 1143],
  ['020', 1159, 1180],
  ['019', 1252, 1283],
  ['018', 1319, 1353],
  ['017', 1360, 1405],
  ['016', 1422, 1465],
  ['015', 1456, 1504],
  ['014', 1485, 1540],
  ['013', 1539, 1582],
  ['012', 1582, 1620],
  ['011', 1607, 1641],
  ['010', 1657, 1679],
  ['09', 1688, 1706],
  ['08', 1728, 1753],
  ['07', 1789, 1809],
  ['06', 1828, 1855],
  ['05', 1888, 1911],
  ['04', 1945, 1971],
  ['03', 1987, 2019],
  ['02', 2016, 2052],
  ['01', 2046, 2080],
  ['1', 2079, 2109],
  ['2', 2088, 2127],
  ['3', 2106, 2138],
  ['4', 2124, 2161],
  ['5', 2167, 2205],
  ['6', 2232, 2269],
  ['7', 2262, 2295],
  ['8', 2280, 2320],
  ['9', 2300, 2336],
  ['10', 2345, 2381],
] as const
