/** Brands keep quantities of different units apart at compile time; at run time they are plain numbers or strings. */
declare const brand: unique symbol;
export type Brand<T, Name extends string> = T & { readonly [brand]: Name };
