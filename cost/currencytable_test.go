package cost_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// The numeric codes as another copy of the list of ISO 4217 has them, that of
// the package iso-codes 4.15 of Debian. The last line is of codes that are
// younger than it, from memory.
const numericCodes = `
AED784 AFN971 ALL008 AMD051 ANG532 AOA973 ARS032 AUD036 AWG533 AZN944 BAM977 BBD052 BDT050 BGN975 BHD048 BIF108 BMD060
BND096 BOB068 BOV984 BRL986 BSD044 BTN064 BWP072 BYN933 BZD084 CAD124 CDF976 CHE947 CHF756 CHW948 CLF990 CLP152 CNY156
COP170 COU970 CRC188 CUC931 CUP192 CVE132 CZK203 DJF262 DKK208 DOP214 DZD012 EGP818 ERN232 ETB230 EUR978 FJD242 FKP238
GBP826 GEL981 GHS936 GIP292 GMD270 GNF324 GTQ320 GYD328 HKD344 HNL340 HTG332 HUF348 IDR360 ILS376 INR356 IQD368 IRR364
ISK352 JMD388 JOD400 JPY392 KES404 KGS417 KHR116 KMF174 KPW408 KRW410 KWD414 KYD136 KZT398 LAK418 LBP422 LKR144 LRD430
LSL426 LYD434 MAD504 MDL498 MGA969 MKD807 MMK104 MNT496 MOP446 MRU929 MUR480 MVR462 MWK454 MXN484 MXV979 MYR458 MZN943
NAD516 NGN566 NIO558 NOK578 NPR524 NZD554 OMR512 PAB590 PEN604 PGK598 PHP608 PKR586 PLN985 PYG600 QAR634 RON946 RSD941
RUB643 RWF646 SAR682 SBD090 SCR690 SDG938 SEK752 SGD702 SHP654 SLE925 SOS706 SRD968 SSP728 STN930 SVC222 SYP760 SZL748
THB764 TJS972 TMT934 TND788 TOP776 TRY949 TTD780 TWD901 TZS834 UAH980 UGX800 USD840 USN997 UYI940 UYU858 UYW927 UZS860
VED926 VES928 VND704 VUV548 WST882 XAF950 XAG961 XAU959 XBA955 XBB956 XBC957 XBD958 XCD951 XDR960 XOF952 XPD964 XPF953
XPT962 XSU994 XTS963 XUA965 XXX999 YER886 ZAR710 ZMW967
XAD396 XCG532 ZWG924`

// The codes whose minor unit has not two digits, by the list of ISO 4217.
var otherDigits = map[int]string{
	0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
	3: "BHD IQD JOD KWD LYD OMR TND",
	4: "CLF UYW",
}

const noMinorUnit = "XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX"

func TestListOfCurrencies(t *testing.T) {
	numeric := map[string]string{}
	for _, f := range strings.Fields(numericCodes) {
		numeric[f[:3]] = f[3:]
	}
	digits := map[string]int{}
	for n, codes := range otherDigits {
		for _, c := range strings.Fields(codes) {
			digits[c] = n
		}
	}
	assert.Len(t, cost.Currencies(), len(numeric))
	for _, c := range cost.Currencies() {
		assert.Equal(t, numeric[string(c)], c.Numeric(), c)
		got, err := c.Digits()
		if strings.Contains(noMinorUnit, string(c)) {
			assert.ErrorIs(t, err, unit.ErrRange, c)
			continue
		}
		want, ok := digits[string(c)]
		if !ok {
			want = 2
		}
		assert.NoError(t, err, c)
		assert.Equal(t, want, got, c)
	}
}
