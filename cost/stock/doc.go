// Package stock is whose goods are, and what of them need not be bought: lengths of the
// shop's stock, remnants, a customer's own, and how they are charged.
//
//	whose      the shop's or the customer's; how goods at hand are charged
//	length     a length at hand, as a file has it
//	handling   the fee for work with a customer's own
//	supplied   whether goods at hand suffice, and what is to be brought
//
// Layouts are made by package layout; what leftovers are, by its plans.
package stock
