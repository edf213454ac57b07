// Package account is what a shop and its customer agree on and settle beside the
// quote of a job: why a quote was revised, what was changed after the price was
// agreed, what was received, the invoice; and how the shop wants its customer's
// papers. It makes no paper: package paper of cost/job does.
//
// [Settle] adds up:
//
//	sum     = total of the quote + changes with tax
//	balance = sum - received
package account
