// Package cost turns quantities into a price that is right to the cent and
// explains itself. It knows money, quantities and prices, not upholstery.
//
// # Money
//
// [Money] is a decimal amount with its ISO 4217 currency. Amounts come in as
// text ("12.50 USD") or whole minor units, never as a float. Different
// currencies do not mix, and every operation that rounds is told how
// ([Rounding]); there is no default.
//
// # Prices
//
// [Price] is money for a quantity of one kind, and the kind is part of its
// type: leather by the square foot or square decimetre, cloth by the yard or
// metre, foam by the board foot, labour by the hour. Pricing a length by the
// square foot does not compile.
//
// # Quotes
//
// An [Item] is what goes into a quote: a quantity, a price and a markup or a
// margin. [NewQuote] adds up lines, tax and what the terms say, each figure
// rounded once and never again, so that the lines always add up to the
// subtotals and these to the total, in every rounding mode.
//
// Nothing here is tax or legal advice. Rates, tax bases and rounding rules
// differ from place to place and change; check them where the work is done.
package cost
