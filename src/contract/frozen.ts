/** The same shape with every field and list read-only, as data is everywhere in the program. */
export type Frozen<Shape> = Shape extends readonly (infer Member)[]
  ? readonly Frozen<Member>[]
  : Shape extends object
    ? { readonly [Field in keyof Shape]: Frozen<Shape[Field]> }
    : Shape
