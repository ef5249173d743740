import { secureHeaders } from 'hono/secure-headers'

/** Everything a page needs comes from this server; nothing may frame it, and it sends nothing elsewhere. */
export const securityHeaders = secureHeaders({
  contentSecurityPolicy: {
    defaultSrc: ["'self'"],
    imgSrc: ["'self'", 'data:', 'blob:'],
    objectSrc: ["'none'"],
    baseUri: ["'none'"],
    formAction: ["'self'"],
    frameAncestors: ["'none'"],
  },
  referrerPolicy: 'no-referrer',
  crossOriginOpenerPolicy: 'same-origin',
  crossOriginResourcePolicy: 'same-origin',
  // Plain HTTP on one's own machine: a browser told to insist on HTTPS could not come back.
  strictTransportSecurity: false,
  permissionsPolicy: { camera: ['self'], microphone: [], geolocation: [] },
})
