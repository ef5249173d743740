/** Where a text stops being JSON. Engines say it each in their own way, or not at all. */
export type JsonFault = {
  /** Both from 1; of the first character that does not belong, or just past the end. */
  readonly line: number
  readonly column: number
  /** True: nothing is wrong but that the text ends. */
  readonly endsTooEarly: boolean
}

/**
 * The first fault of a text that is not JSON.
 * @returns undefined when the text is JSON
 * @see RFC 8259
 */
export function jsonFault(text: string): JsonFault | undefined {
  const index = faultIndex(text)
  if (index === undefined) return undefined
  const before = text.slice(0, index).split('\n')
  return { line: before.length, column: before.at(-1)!.length + 1, endsTooEarly: index === text.length }
}

/** What may come next. Within an object or a list, the first member may also be its end. */
type Wanted = 'value' | 'value or end' | 'name' | 'name or end' | 'colon' | 'comma or end' | 'nothing'

/** Walks the text once with a stack of its own, so that no depth of nesting can exhaust the engine's. */
function faultIndex(text: string): number | undefined {
  const ends: string[] = []
  let wanted: Wanted = 'value'
  for (let at = afterSpace(text, 0); ; at = afterSpace(text, at)) {
    const char = text[at]
    if (wanted === 'nothing') return char === undefined ? undefined : at
    if (char === undefined) return text.length
    if (char === ends.at(-1) && wanted.endsWith('end')) {
      ends.pop()
      wanted = ends.length === 0 ? 'nothing' : 'comma or end'
      at++
    } else if (wanted === 'comma or end') {
      if (char !== ',') return at
      wanted = ends.at(-1) === '}' ? 'name' : 'value'
      at++
    } else if (wanted === 'colon') {
      if (char !== ':') return at
      wanted = 'value'
      at++
    } else if ((char === '{' || char === '[') && wanted.startsWith('value')) {
      ends.push(char === '{' ? '}' : ']')
      wanted = char === '{' ? 'name or end' : 'value or end'
      at++
    } else {
      const isName: boolean = wanted.startsWith('name')
      if (isName && char !== '"') return at
      const token = char === '"' ? stringAt(text, at) : wordAt(text, at)
      if (token.fault !== undefined) return token.fault
      at = token.end
      wanted = isName ? 'colon' : ends.length === 0 ? 'nothing' : 'comma or end'
    }
  }
}

function afterSpace(text: string, from: number): number {
  let at = from
  while (text[at] === ' ' || text[at] === '\n' || text[at] === '\r' || text[at] === '\t') at++
  return at
}

type Token = { readonly end: number; readonly fault?: number }

function stringAt(text: string, from: number): Token {
  for (let at = from + 1; at < text.length; at++) {
    const char = text[at]!
    if (char === '"') return { end: at + 1 }
    if (char < ' ') return { end: at, fault: at }
    if (char !== '\\') continue
    const escape = /^(["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(text.slice(at + 1, at + 6))
    if (!escape) return { end: at, fault: /^(u[0-9a-fA-F]{0,3})?$/.test(text.slice(at + 1)) ? text.length : at }
    at += escape[0].length
  }
  return { end: text.length, fault: text.length }
}

/** A number, true, false or null: taken as a whole, since `1.` or `tru` is at fault from its beginning. */
function wordAt(text: string, from: number): Token {
  let end = from
  while (end < text.length && /[\w.+-]/.test(text[end]!)) end++
  const isWord = /^(-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?|true|false|null)$/.test(text.slice(from, end))
  if (isWord) return { end }
  return { end, fault: end === text.length && end > from ? text.length : from }
}
