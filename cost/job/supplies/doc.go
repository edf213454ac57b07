// Package supplies says what must be ordered for a job: the same quantities that its
// quote buys, each once, by who sells them.
//
// [Of] makes the list of a work order. What lies in the shop, and what the customer
// brings, is on it as [AtHand], and is not ordered. There is no money on the list unless
// [Options] ask for it, and then it is what the shop pays.
package supplies
