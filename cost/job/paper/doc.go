// Package paper makes the papers that the customer of a job gets out of its work
// order: an estimate, a quotation, a work order to sign or an invoice. A [Paper] is
// data, to be printed or read by other programs.
//
// It holds what the customer pays and what is done for it, and nothing of how the
// price came about: what goods and hours are charged at, what is added for what
// cannot be seen and what fills a price up is spread over the amounts, which still
// add up to the total of the quote to the minor unit.
package paper
