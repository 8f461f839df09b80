/** The bundler and the tests import `.bothways` files as text. */
declare module "*.bothways" {
  const text: string;
  export default text;
}
