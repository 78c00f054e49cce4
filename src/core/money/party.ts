/** Somebody who gives or gets a paper: the shop, the customer, whoever pays. */
export interface Party {
  readonly name: string;
  /** Address as it is written on an envelope, name and country left out. */
  readonly lines: readonly string[];
  /** Postal code and town, where they are told apart: an electronic invoice asks for them. */
  readonly postcode?: string;
  readonly town?: string;
  /** ISO 3166-1, two letters. */
  readonly country?: string;
  readonly phone?: string;
  readonly email?: string;
  /** VAT identifier with its country's letters; or a tax number, where there is none. */
  readonly vatId?: string;
  readonly taxNumber?: string;
}

/** Where money is to be sent. */
export interface Bank {
  /** Whose account it is. */
  readonly holder: string;
  /** IBAN without blanks. */
  readonly account: string;
  readonly bic?: string;
}
