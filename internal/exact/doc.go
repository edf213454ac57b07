// Package exact is arithmetic on fractions without loss: within 128 bits
// without an allocation, beyond them with math/big.
package exact
