// Package cost turns quantities into a price that is right to the cent and
// explains itself. It knows money, quantities and prices, not upholstery.
//
// It stands on package unit alone; packages rate and job stand on it.
//
// The README of the folder explains the formulas, each worked once by hand.
//
// # Money
//
// [Money] is a decimal amount with its ISO 4217 currency. Amounts come in as
// text ("12.50 USD") or whole minor units, never as a float. Different
// currencies do not mix, and every operation that rounds is told how
// ([Rounding], half up where nothing else is said).
//
// # Prices
//
// [Price] is money for a quantity of one kind, and the kind is part of its
// type: leather by the square foot or square decimetre, cloth by the yard or
// metre, foam by the board foot, labour by the hour. Pricing a length by the
// square foot does not compile. A [PriceList] is read from CSV or JSON, or built
// of entries; [Entry.Charge] rounds what is used up to what is sold and says how
// many packs to order. [AnyPrice] and [AnyQuantity] are for lists that hold
// several kinds.
//
// [Markup] and [Margin] turn a cost into a price. What an hour at the bench
// costs, and how much must be sold, is package rate.
//
// # Quotes
//
// An [Item] is what goes into a quote: a quantity, a price and a markup or a
// margin. [NewQuote] adds up lines, tax and what the terms say, each figure
// rounded once and never again, so that the lines always add up to the
// subtotals and these to the total, in every rounding mode. What must be split
// (a discount over lines, a tax over lines, a total over payments) is split by
// largest remainder; see [Allocate].
//
// Lines may say which groups they are for ([Share]), such as pieces of furniture;
// [Quote.Groups] is then the same quote once more by group, with the cost, price
// and margin of each.
//
// [Quote.Figures] tells how each figure came about, [Quote.TaxMethods] what
// another way of rounding the tax would give, [Compare] sets two quotes side
// by side and [PriceOptions] several ways to do one job.
//
// # What it does not know
//
// Nothing here is tax or legal advice. Rates, tax bases and rounding rules
// differ from place to place and change, and a deposit, a period of validity
// or a discount may be bound by law; check the rules where the work is done.
// No source was found for contingency on repairs: that is yours to give.
package cost
