/**
 * The standard functions in a few words each: sections with a line for their task, then for each function
 * `NAME OTHER_NAMES: answers | argument kind: what to put | [optional] kind: what to put …`; with `…` the
 * last argument may be given again, with `… …` the last two in turn. A kind in the plural takes ranges
 * too. Arguments and their order are those of OpenDocument 1.3, part 4 (OpenFormula), where it has the
 * function; the engine's own account of them is held against these lines by a test.
 */
export const WORDS = `
Adding up and counting
SUM: adds up | values numbers: numbers or a range …
SUMIF: adds up those that meet a condition | range range: where to look | condition condition: a value, or words such as ">5" | [sum_range] range: what to add up, where it is another range
SUMIFS: adds up those that meet all conditions | sum_range range: what to add up | range range: where to look | condition condition: a value, or words such as ">5" … …
SUMPRODUCT: adds up products, line by line | ranges range: ranges of one size …
SUMSQ: adds up the squares | values numbers: numbers or a range …
PRODUCT: multiplies | values numbers: numbers or a range …
COUNT: how many numbers | values values: cells or a range …
COUNTA: how many are not empty | values values: cells or a range …
COUNTBLANK: how many are empty | values values: cells or a range …
COUNTIF: how many meet a condition | range range: where to look | condition condition: a value, or words such as ">5"
COUNTIFS: how many lines meet all conditions | range range: where to look | condition condition: a value, or words such as ">5" … …
COUNTUNIQUE: how many different values there are | values values: cells or a range …
SUBTOTAL: adds up, counts or averages, as a number says | kind whole: 1 average, 2 count, 3 count what is not empty, 4 largest, 5 smallest, 6 product, 7 and 8 spread, 9 sum, 10 and 11 variance | values numbers: numbers or a range …

Smallest, largest and average
MIN: the smallest | values numbers: numbers or a range …
MINA: the smallest, words counting as 0 and TRUE as 1 | values values: cells or a range …
MINIFS: the smallest of those that meet all conditions | min_range range: what to take the smallest of | range range: where to look | condition condition: a value, or words such as ">5" … …
MAX: the largest | values numbers: numbers or a range …
MAXA: the largest, words counting as 0 and TRUE as 1 | values values: cells or a range …
MAXIFS: the largest of those that meet all conditions | max_range range: what to take the largest of | range range: where to look | condition condition: a value, or words such as ">5" … …
LARGE: the largest, second largest and so on | range range: where to look | place whole: 1 for the largest, 2 for the second
SMALL: the smallest, second smallest and so on | range range: where to look | place whole: 1 for the smallest, 2 for the second
AVERAGE: the average | values numbers: numbers or a range …
AVERAGEA: the average, words counting as 0 and TRUE as 1 | values values: cells or a range …
AVERAGEIF: the average of those that meet a condition | range range: where to look | condition condition: a value, or words such as ">5" | [average_range] range: what to take the average of
MEDIAN: the one in the middle | values numbers: numbers or a range …
GEOMEAN: the geometric mean, for things that multiply | values numbers: numbers over 0, or a range …
HARMEAN: the harmonic mean, for speeds and rates | values numbers: numbers over 0, or a range …

Rounding
ROUND: rounds to places | number number: what to round | [places] whole: decimals to keep
ROUNDUP: rounds away from zero | number number: what to round | [places] whole: decimals to keep
ROUNDDOWN TRUNC: rounds toward zero | number number: what to round | [places] whole: decimals to keep
INT: down to a whole number | number number: what to round
EVEN: away from zero to an even number | number number: what to round
ODD: away from zero to an odd number | number number: what to round
CEILING: up to a multiple | number number: what to round | [step] number: the multiple, 1 where left out | [away] whole: 1 rounds negative numbers away from zero
FLOOR: down to a multiple | number number: what to round | [step] number: the multiple, 1 where left out | [towards] whole: 1 rounds negative numbers toward zero
MROUND: to the nearest multiple | number number: what to round | step number: the multiple
CEILING.MATH: up to a multiple, whatever the signs | number number: what to round | [step] number: the multiple, 1 where left out | [away] whole: 1 rounds negative numbers away from zero
FLOOR.MATH: down to a multiple, whatever the signs | number number: what to round | [step] number: the multiple, 1 where left out | [towards] whole: 1 rounds negative numbers toward zero
CEILING.PRECISE ISO.CEILING: up to a multiple, negative numbers too | number number: what to round | [step] number: the multiple, 1 where left out
FLOOR.PRECISE: down to a multiple, negative numbers too | number number: what to round | [step] number: the multiple, 1 where left out
QUOTIENT: how many whole times it goes in | number number: what is divided | divisor number: by what
MOD: what is left over from a division | number number: what is divided | divisor number: by what

Arithmetic
ABS: without its sign | number number: any number
SIGN: 1 over zero, 0 at zero, -1 below | number number: any number
SQRT: the square root | number number: 0 or more
SQRTPI: the square root of a number times π | number number: 0 or more
POWER: a number to a power | number number: the base | exponent number: the power
EXP: e to a power | exponent number: the power
LN: the natural logarithm | number number: over 0
LOG: the logarithm to a base | number number: over 0 | [base] number: 10 where left out
LOG10: the logarithm to base 10 | number number: over 0
PI: 3.14159…
FACT: the factorial, 1 × 2 × 3 and so on | number whole: 0 or more
FACTDOUBLE: the product of every second number down | number whole: 0 or more
COMBIN: in how many ways some can be picked | number whole: how many there are | chosen whole: how many are picked
COMBINA: in how many ways some can be picked, each more than once | number whole: how many there are | chosen whole: how many are picked
MULTINOMIAL: in how many ways things split into groups | sizes numbers: how many each group has …
GCD: the largest number that divides all | values numbers: whole numbers or a range …
LCM: the smallest number that all divide | values numbers: whole numbers or a range …
SERIESSUM: adds up a power series | number number: what is put in | first number: power of the first term | step number: by how much each next power is higher | factors range: one factor for each term
RAND: a random number from 0 to 1, a new one each time
RANDBETWEEN: a random whole number, a new one each time | least whole: the smallest it may be | most whole: the largest it may be

Angles
SIN: the sine | angle number: in radians
COS: the cosine | angle number: in radians
TAN: the tangent | angle number: in radians
ASIN: the angle whose sine it is, in radians | number number: from -1 to 1
ACOS: the angle whose cosine it is, in radians | number number: from -1 to 1
ATAN: the angle whose tangent it is, in radians | number number: any number
ATAN2: the angle of a point from the x axis, in radians | x number: how far along | y number: how far up
RADIANS: degrees as radians | degrees number: an angle
DEGREES: radians as degrees | radians number: an angle
COT: the cotangent | angle number: in radians
SEC: the secant, 1 / cosine | angle number: in radians
CSC: the cosecant, 1 / sine | angle number: in radians
ACOT: the angle whose cotangent it is, in radians | number number: any number
SINH: the hyperbolic sine | number number: any number
COSH: the hyperbolic cosine, the shape of a hanging chain | number number: any number
TANH: the hyperbolic tangent | number number: any number
COTH: the hyperbolic cotangent | number number: any number but 0
SECH: the hyperbolic secant | number number: any number
CSCH: the hyperbolic cosecant | number number: any number but 0
ASINH: the number whose hyperbolic sine it is | number number: any number
ACOSH: the number whose hyperbolic cosine it is | number number: 1 or more
ATANH: the number whose hyperbolic tangent it is | number number: between -1 and 1
ACOTH: the number whose hyperbolic cotangent it is | number number: under -1 or over 1

Choosing and testing
IF: one of two answers | condition logical: what is true or false | then value: the answer when it is true | [else] value: the answer when it is false
IFS: the first answer whose condition is true | condition logical: what is true or false | then value: the answer … …
SWITCH: the answer that belongs to a value | value value: what to compare | case value: what it may be | then value: the answer then; one more at the end is the answer where no case fits … …
CHOOSE: one of several by its number | number whole: which one, 1 for the first | values value: the choices …
IFERROR: an answer that does not fail | value value: what may fail | instead value: the answer when it does
IFNA: an answer where a value was not found | value value: what may not be found | instead value: the answer when it is not
AND: whether all are true | conditions logicals: what is true or false …
OR: whether any is true | conditions logicals: what is true or false …
XOR: whether an odd number of them is true | conditions logicals: what is true or false …
NOT: the opposite | condition logical: what is true or false
TRUE: yes
FALSE: no
ISBLANK: whether a cell is empty | value value: a cell
ISNUMBER: whether it is a number | value value: a cell or value
ISTEXT: whether it is text | value value: a cell or value
ISNONTEXT: whether it is anything but text | value value: a cell or value
ISLOGICAL: whether it is TRUE or FALSE | value value: a cell or value
ISEVEN: whether a number is even | number number: a whole number
ISODD: whether a number is odd | number number: a whole number
ISERROR: whether it is an error | value value: a cell or value
ISERR: whether it is an error other than not found | value value: a cell or value
ISNA: whether it is the error of what was not found | value value: a cell or value
ISREF: whether it is an error of a reference | value value: a cell or value
ISFORMULA: whether a cell holds a formula | cell value: a cell
ISBINARY: whether text is a binary number of up to 10 digits | text text: digits
DELTA: 1 where two numbers are equal, otherwise 0 | number number: any number | [other] number: 0 where left out
EXACT: whether two texts are the same, capitals too | text text: one | other text: the other
NA: the error of what was not found

Looking up
XLOOKUP: the value beside another, wherever the columns are | value value: what to look for | where range: one row or column to search | answers range: where the answer stands, as long as the one searched | [otherwise] value: the answer where it is not found | [fit] whole: 0 exact, -1 exact or next smaller, 1 exact or next larger, 2 with * and ? for any letters | [search] whole: 1 from the first, -1 from the last, 2 in rising order, -2 in falling order
VLOOKUP: a value from the line where another stands | value value: what to look for | range range: where, its first column is searched | column whole: which column to take, 1 for the first | [sorted] logical: FALSE for an exact match
HLOOKUP: a value from the column where another stands | value value: what to look for | range range: where, its first row is searched | row whole: which row to take, 1 for the first | [sorted] logical: FALSE for an exact match
INDEX: the value at a place of a range | range range: where to look | row whole: which row, 1 for the first | [column] whole: which column
MATCH: the place of a value in a range | value value: what to look for | range range: one row or column | [kind] whole: 0 for an exact match
OFFSET: cells that lie so far from others | cell value: where to start | rows whole: how far down, a number as it stands | columns whole: how far to the right, a number as it stands | [height] whole: how many rows | [width] whole: how many columns
ADDRESS: the address of a cell in letters | row whole: 1 for the first | column whole: 1 for the first | [fixed] whole: 1 both with $, 2 the row, 3 the column, 4 none | [letters] logical: FALSE for R1C1 | [sheet] text: name of the sheet
ROW: the number of a row | [cell] value: this cell where left out
COLUMN: the number of a column | [cell] value: this cell where left out
ROWS: how many rows a range has | range range: the range
COLUMNS: how many columns a range has | range range: the range
SHEET: the number of a sheet | [sheet] text: a name or a cell, this sheet where left out
SHEETS: how many sheets there are | [range] text: all of the workbook where left out
FORMULATEXT: the formula of a cell as text | cell value: a cell
HYPERLINK: the text of a link | address text: where it leads | [text] text: what is shown

Lists
SORT: a range in order | range range: what to sort | [by] whole: by which column, 1 for the first | [order] whole: 1 rising, -1 falling | [sideways] logical: TRUE sorts columns
FILTER: what meets all conditions | range range: one row or column | conditions range: TRUE or FALSE for each, as long as the range …
UNIQUE: each different value once | range range: where to look | [sideways] logical: TRUE compares columns | [once] logical: TRUE keeps only what occurs once
SEQUENCE: numbers in steps | rows whole: how many rows | [columns] whole: how many columns, 1 where left out | [start] number: the first, 1 where left out | [step] number: from one to the next, 1 where left out
TRANSPOSE: a range with rows and columns swapped | range range: the range
HSTACK: ranges side by side | ranges range: ranges …
VSTACK: ranges one under the other | ranges range: ranges …
ARRAYFORMULA: a formula worked out for each cell of its ranges | formula value: the formula
ARRAY_CONSTRAIN: the first rows and columns of a range | range range: the range | rows whole: at most so many | columns whole: at most so many
MMULT: the product of two matrices | first range: as many columns as the second has rows | second range: the other
MAXPOOL: the largest within a window that moves over a range | range range: numbers | size whole: rows and columns of the window | [step] whole: how far it moves, its size where left out
MEDIANPOOL: the middle one within a window that moves over a range | range range: numbers | size whole: rows and columns of the window | [step] whole: how far it moves, its size where left out

Text
CONCATENATE: joins words | texts texts: words or cells …
TEXTJOIN: joins words with something between | between values: what stands between, such as ", " | skip_empty logical: TRUE leaves out what is empty | texts values: words, cells or a range …
TEXT: a number in words | number number: what to write | format text: how, such as "0.00"
VALUE: the number that text stands for | text value: digits as text
N: a number, 0 for words | value value: a cell or value
T: the text, nothing for anything else | value value: a cell or value
LEFT: the first letters | text text: words | [count] whole: how many
RIGHT: the last letters | text text: words | [count] whole: how many
MID: letters from within | text text: words | start whole: which one first, from 1 | count whole: how many
LEN: how many letters | text text: words
FIND: at which letter something begins, capitals told apart | wanted text: what to look for | text text: where | [start] whole: from which letter
SEARCH: at which letter something begins, whatever the capitals | wanted text: what to look for, * and ? for any letters | text text: where | [start] whole: from which letter
REPLACE: puts new letters in place of some | text text: words | start whole: which letter first, from 1 | count whole: how many go | by text: what comes instead
SUBSTITUTE: puts new words in place of old ones | text text: words | old text: what goes | new text: what comes instead | [which] whole: only this one, all where left out
TRIM: without spaces at the ends and extra ones between | text text: words
CLEAN: without characters that cannot be printed | text text: words
UPPER: in capitals | text text: words
LOWER: in small letters | text text: words
PROPER: each word with a capital | text text: words
REPT: text repeated | text text: words | times whole: how often
SPLIT: one of several words | text text: words with spaces between | place whole: which one, 0 for the first
CHAR: the letter with a number | number whole: 1 to 255
CODE: the number of the first letter | text text: words
UNICHAR: the letter with a Unicode number | number whole: 1 to 1114111
UNICODE: the Unicode number of the first letter | text text: words
ROMAN: a number in Roman numerals | number whole: 1 to 3999 | [short] value: 0 as usual, to 4 the shortest
ARABIC: the number that Roman numerals stand for | text text: such as "XIV"
VERSION: name and version of the engine that works formulas out

Dates and times
TODAY: today's date
NOW: the date and time now
DATE: a day | year whole: in full | month whole: 1 to 12 | day whole: 1 to 31
TIME: a time of day as part of a day | hour number: 0 to 23 | minute number: 0 to 59 | second number: 0 to 59
DATEVALUE: an error here, where words are not read as days: use DATE | text text: a day in words
TIMEVALUE: an error here, where words are not read as times: use TIME | text text: a time in words
YEAR: the year of a day | date date: a day
MONTH: the month of a day, 1 to 12 | date date: a day
DAY: the day of the month, 1 to 31 | date date: a day
HOUR: the hour, 0 to 23 | time number: a time, or a day with a time
MINUTE: the minute, 0 to 59 | time number: a time, or a day with a time
SECOND: the second, 0 to 59 | time number: a time, or a day with a time
WEEKDAY: the day of the week, by number | date date: a day | [kind] whole: 1 Sunday is 1, 2 Monday is 1, 3 Monday is 0
WEEKNUM: the week of the year | date date: a day | [kind] whole: 1 weeks begin on Sunday, 2 on Monday, 21 as ISO 8601 counts
ISOWEEKNUM: the week of the year as ISO 8601 counts | date date: a day
DAYS: how many days lie between | end date: the later day | start date: the earlier day
DAYS360: days between in a year of twelve 30-day months | start date: the earlier day | end date: the later day | [european] logical: TRUE for the European way
DATEDIF: whole days, months or years between | start date: the earlier day | end date: the later day | unit text: "D" days, "M" months, "Y" years, "MD", "YM" and "YD" what is left over
YEARFRAC: years between, with their fraction | start date: the earlier day | end date: the later day | [basis] whole: 0 30-day months, 1 as they are, 2 years of 360 days, 3 of 365, 4 30-day months in Europe
EDATE: the same day some months on | date date: a day | months whole: how many, under 0 for earlier
EOMONTH: the last day of a month some months on | date date: a day | months whole: how many, 0 for the same month
WORKDAY: the day after so many working days | start date: a day | days whole: working days, under 0 for earlier | [holidays] range: days off
WORKDAY.INTL: the day after so many working days, with your own weekend | start date: a day | days whole: working days, under 0 for earlier | [weekend] value: 1 Saturday and Sunday, 11 Sunday alone; or seven signs from Monday on, 1 for off | [holidays] range: days off
NETWORKDAYS: how many working days, first and last counted | start date: the first day | end date: the last day | [holidays] range: days off
NETWORKDAYS.INTL: how many working days, with your own weekend | start date: the first day | end date: the last day | [weekend] value: 1 Saturday and Sunday, 11 Sunday alone; or seven signs from Monday on, 1 for off | [holidays] range: days off
INTERVAL: seconds written as a length of time | seconds number: how many

Money over time
PMT: what to pay each time on a loan | rate share: interest for one period, 0.01 for 1 % | periods number: how many payments | present money: the loan | [future] money: what is left at the end | [due] whole: 1 where paid at the start of each period
IPMT: how much of one payment is interest | rate share: interest for one period, 0.01 for 1 % | period number: which payment, from 1 | periods number: how many payments | present money: the loan | [future] money: what is left at the end | [due] whole: 1 where paid at the start of each period
PPMT: how much of one payment pays back the loan | rate share: interest for one period, 0.01 for 1 % | period number: which payment, from 1 | periods number: how many payments | present money: the loan | [future] money: what is left at the end | [due] whole: 1 where paid at the start of each period
CUMIPMT: interest of several payments together | rate share: interest for one period, 0.01 for 1 % | periods number: how many payments | present money: the loan | first whole: from which payment | last whole: to which payment | due whole: 1 where paid at the start of each period, otherwise 0
CUMPRINC: what several payments pay back together | rate share: interest for one period, 0.01 for 1 % | periods number: how many payments | present money: the loan | first whole: from which payment | last whole: to which payment | due whole: 1 where paid at the start of each period, otherwise 0
ISPMT: interest of one period where the loan is paid back in equal parts | rate share: interest for one period, 0.01 for 1 % | period number: which one, from 0 | periods number: how many payments | present money: the loan
PV: what payments to come are worth today | rate share: interest for one period, 0.01 for 1 % | periods number: how many payments | payment money: each of them | [future] money: what comes at the end | [due] whole: 1 where paid at the start of each period
FV: what savings come to | rate share: interest for one period, 0.01 for 1 % | periods number: how many payments | payment money: each of them, below 0 where you pay | [present] money: what is there today | [due] whole: 1 where paid at the start of each period
FVSCHEDULE: what a sum comes to at changing interest | present money: what is there today | rates range: interest of each period, 0.01 for 1 %
NPER: how many payments it takes | rate share: interest for one period, 0.01 for 1 % | payment money: each of them | present money: the loan | [future] money: what is left at the end | [due] whole: 1 where paid at the start of each period
RATE: the interest of one period that payments amount to | periods number: how many payments | payment money: each of them, below 0 where you pay | present money: the loan | [future] money: what is left at the end | [due] whole: 1 where paid at the start of each period | [guess] share: where to begin, 0.1 where left out
PDURATION: how many periods a sum takes to grow | rate share: interest for one period, 0.01 for 1 % | present money: what is there today | future money: what it is to be
RRI: the interest of one period at which a sum grew | periods number: how many | present money: what was there | future money: what it came to
EFFECT: interest of a year with that on interest | rate share: interest a year as it is named, 0.05 for 5 % | periods number: how often a year it is paid
NOMINAL: interest of a year as it is named | rate share: interest a year with that on interest, 0.05 for 5 % | periods number: how often a year it is paid
NPV: what sums of coming periods are worth today | rate share: interest for one period, 0.01 for 1 % | values numbers: one sum for each period …
XNPV: what sums of certain days are worth on the first | rate share: interest for a year, 0.05 for 5 % | values range: the sums | dates range: a day for each
IRR: the interest at which an investment pays | values range: sums period by period, below 0 where you pay | [guess] share: where to begin, 0.1 where left out
XIRR: the interest of a year at which an investment pays, by days | values range: the sums, below 0 where you pay | dates range: a day for each | [guess] share: where to begin, 0.1 where left out
MIRR: the interest at which an investment pays, what it brings being put aside | values range: sums period by period, below 0 where you pay | rate share: interest you pay | reinvested share: interest of what is put aside
SLN: what a machine loses each period, evenly | cost money: what it cost | salvage money: what it brings at the end | life number: periods it is used
SYD: what a machine loses in one period, more at first | cost money: what it cost | salvage money: what it brings at the end | life number: periods it is used | period number: which one, from 1
DB: what a machine loses in one period, a fixed share of what is left | cost money: what it cost | salvage money: what it brings at the end | life whole: periods it is used | period whole: which one, from 1 | [months] whole: of the first year, 12 where left out
DDB: what a machine loses in one period, at double the even rate | cost money: what it cost | salvage money: what it brings at the end | life whole: periods it is used | period number: which one, from 1 | [factor] number: 2 where left out
DOLLARDE: a price in fractions as a decimal | price number: such as 1.02 for 1 2/16 | denominator number: of the fraction, such as 16
DOLLARFR: a decimal price in fractions | price number: such as 1.125 | denominator number: of the fraction, such as 16
TBILLEQ: yield of a Treasury bill as that of a bond | bought date: the day it is bought | due date: the day it is paid | discount share: 0.05 for 5 %
TBILLPRICE: price of a Treasury bill for a face value of 100 | bought date: the day it is bought | due date: the day it is paid | discount share: 0.05 for 5 %
TBILLYIELD: yield of a Treasury bill | bought date: the day it is bought | due date: the day it is paid | price money: for a face value of 100

Spread and pairs
STDEV.S STDEV STDEVS: standard deviation, from a sample | values numbers: numbers or a range …
STDEV.P STDEVP: standard deviation, of all there are | values numbers: numbers or a range …
STDEVA: standard deviation from a sample, words counting as 0 and TRUE as 1 | values values: cells or a range …
STDEVPA: standard deviation of all, words counting as 0 and TRUE as 1 | values values: cells or a range …
VAR.S VAR VARS: variance, from a sample | values numbers: numbers or a range …
VAR.P VARP: variance, of all there are | values numbers: numbers or a range …
VARA: variance from a sample, words counting as 0 and TRUE as 1 | values values: cells or a range …
VARPA: variance of all, words counting as 0 and TRUE as 1 | values values: cells or a range …
AVEDEV: how far values lie from their mean on average | values numbers: numbers or a range …
DEVSQ: squares of how far values lie from their mean, added up | values numbers: numbers or a range …
SKEW: how lopsided values are, from a sample | values numbers: numbers or a range …
SKEW.P SKEWP: how lopsided values are, of all there are | values numbers: numbers or a range …
PERCENTILE.INC PERCENTILE: the value under which a share of all lies | range range: numbers | share share: from 0 to 1
PERCENTILE.EXC: the value under which a share of all lies, without the ends | range range: numbers | share share: between 0 and 1
QUARTILE.INC QUARTILE: the value at a quarter, a half, three quarters | range range: numbers | quarter whole: 0 least, 2 the middle, 4 most
QUARTILE.EXC: the value at a quarter, a half, three quarters, without the ends | range range: numbers | quarter whole: 1 to 3
STANDARDIZE: how many standard deviations from the mean | number number: a value | mean number: the mean | deviation number: standard deviation, over 0
CORREL PEARSON: how closely two lists go together, -1 to 1 | first range: numbers | second range: as many
RSQ: the square of how closely two lists go together | y range: numbers | x range: as many
COVARIANCE.P COVAR COVARIANCEP: covariance of two lists, of all there are | first range: numbers | second range: as many
COVARIANCE.S COVARIANCES: covariance of two lists, from a sample | first range: numbers | second range: as many
SLOPE: how steep the best straight line through points is | y range: how far up each lies | x range: how far along
STEYX: how far points lie from the best straight line | y range: how far up each lies | x range: how far along
SUMX2MY2: adds up the differences of squares, pair by pair | first range: numbers | second range: as many
SUMX2PY2: adds up the sums of squares, pair by pair | first range: numbers | second range: as many
SUMXMY2: adds up the squares of differences, pair by pair | first range: numbers | second range: as many
FISHER: Fisher's transformation of a correlation | number number: between -1 and 1
FISHERINV: the correlation that belongs to Fisher's transformation | number number: any number

Probability
NORM.DIST NORMDIST: the bell curve, or the chance of at most a value | number number: a value | mean number: the mean | deviation number: standard deviation, over 0 | cumulative logical: TRUE for the chance of at most this
NORM.INV NORMINV: the value that stays under a chance on the bell curve | chance share: between 0 and 1 | mean number: the mean | deviation number: standard deviation, over 0
NORM.S.DIST NORMSDIST: the bell curve of mean 0 and deviation 1 | number number: a value | cumulative logical: TRUE for the chance of at most this
NORM.S.INV NORMSINV: the value that stays under a chance, for mean 0 and deviation 1 | chance share: between 0 and 1
PHI: the height of the bell curve of mean 0 and deviation 1 | number number: a value
GAUSS: the chance between the mean and so many deviations | number number: standard deviations
CONFIDENCE.NORM CONFIDENCE: how far a mean may be off, deviation known | alpha share: chance of being wrong, such as 0.05 | deviation number: standard deviation, over 0 | count number: how many were measured
CONFIDENCE.T: how far a mean may be off, deviation from the sample | alpha share: chance of being wrong, such as 0.05 | deviation number: standard deviation, over 0 | count number: how many were measured
Z.TEST ZTEST: how likely a mean this high is by chance | range range: what was measured | number number: the mean it is tested against | [deviation] number: standard deviation, that of the sample where left out
T.TEST TTEST: how likely two lists differ by chance alone | first range: numbers | second range: numbers | tails whole: 1 or 2 | kind whole: 1 in pairs, 2 equal spread, 3 unequal spread
T.DIST: Student's t, or the chance of at most a value | number number: a value | freedom number: degrees of freedom, 1 or more | cumulative logical: TRUE for the chance of at most this
T.DIST.RT TDISTRT: the chance of more than a value of Student's t | number number: a value | freedom number: degrees of freedom, 1 or more
T.DIST.2T TDIST2T: the chance of a value of Student's t farther off either way | number number: 0 or more | freedom number: degrees of freedom, 1 or more
TDIST: the chance of Student's t at one end or both | number number: 0 or more | freedom number: degrees of freedom, 1 or more | tails whole: 1 or 2
T.INV: the value of Student's t that stays under a chance | chance share: between 0 and 1 | freedom number: degrees of freedom, 1 or more
T.INV.2T TINV TINV2T: the value of Student's t for a chance at both ends | chance share: over 0, up to 1 | freedom number: degrees of freedom, 1 or more
CHISQ.DIST: chi-squared, or the chance of at most a value | number number: 0 or more | freedom number: degrees of freedom, 1 or more | cumulative logical: TRUE for the chance of at most this
CHISQ.DIST.RT CHIDIST CHIDISTRT: the chance of more than a value of chi-squared | number number: 0 or more | freedom number: degrees of freedom, 1 or more
CHISQ.INV: the value of chi-squared that stays under a chance | chance share: from 0 to 1 | freedom number: degrees of freedom, 1 or more
CHISQ.INV.RT CHIINV CHIINVRT: the value of chi-squared that is passed with a chance | chance share: from 0 to 1 | freedom number: degrees of freedom, 1 or more
CHISQ.TEST CHITEST: how likely counts differ from those expected by chance alone | counted range: what was counted | expected range: what was expected, as many
F.DIST: Fisher's F, or the chance of at most a value | number number: 0 or more | freedom number: degrees of freedom above | freedom_below number: degrees of freedom below | cumulative logical: TRUE for the chance of at most this
F.DIST.RT FDIST FDISTRT: the chance of more than a value of Fisher's F | number number: 0 or more | freedom number: degrees of freedom above | freedom_below number: degrees of freedom below
F.INV: the value of Fisher's F that stays under a chance | chance share: from 0 to 1 | freedom number: degrees of freedom above | freedom_below number: degrees of freedom below
F.INV.RT FINV FINVRT: the value of Fisher's F that is passed with a chance | chance share: from 0 to 1 | freedom number: degrees of freedom above | freedom_below number: degrees of freedom below
F.TEST FTEST: how likely two lists spread differently by chance alone | first range: numbers | second range: numbers
BINOM.DIST BINOMDIST: the chance of so many successes, or of at most so many | successes number: how many | trials number: out of how many | chance share: of one success, 0 to 1 | cumulative logical: TRUE for at most so many
BINOM.INV CRITBINOM: the fewest successes that reach a chance | trials number: out of how many | chance share: of one success, 0 to 1 | reached share: the chance to reach, between 0 and 1
NEGBINOM.DIST NEGBINOMDIST: the chance of so many failures before some successes | failures number: how many | successes number: how many are wanted | chance share: of one success, 0 to 1 | cumulative logical: TRUE for at most so many
HYPGEOM.DIST HYPGEOMDIST: the chance of so many good ones in a sample taken out | good number: good ones in the sample | sample number: how many are taken | all_good number: good ones there are | all number: how many there are | cumulative logical: TRUE for at most so many
POISSON.DIST POISSON POISSONDIST: the chance of so many events, or of at most so many | events number: how many | mean number: how many there are on average | cumulative logical: TRUE for at most so many
EXPON.DIST EXPONDIST: the chance of waiting at most so long | number number: how long | rate number: events in one unit of time, over 0 | cumulative logical: TRUE for the chance, FALSE for the curve
WEIBULL.DIST WEIBULL WEIBULLDIST: the chance that something has failed by then | number number: how long | shape number: over 0 | scale number: over 0 | cumulative logical: TRUE for the chance, FALSE for the curve
LOGNORM.DIST LOGNORMDIST: the bell curve of logarithms, or the chance of at most a value | number number: over 0 | mean number: mean of the logarithms | deviation number: standard deviation of the logarithms | cumulative logical: TRUE for the chance of at most this
LOGNORM.INV LOGINV LOGNORMINV: the value that stays under a chance on the bell curve of logarithms | chance share: between 0 and 1 | mean number: mean of the logarithms | deviation number: standard deviation of the logarithms
BETA.DIST BETADIST: the beta distribution, or the chance of at most a value | number number: between least and most | alpha number: over 0 | beta number: over 0 | cumulative logical: TRUE for the chance of at most this | [least] number: 0 where left out | [most] number: 1 where left out
BETA.INV BETAINV: the value that stays under a chance of the beta distribution | chance share: over 0, up to 1 | alpha number: over 0 | beta number: over 0 | [least] number: 0 where left out | [most] number: 1 where left out
GAMMA.DIST GAMMADIST: the gamma distribution, or the chance of at most a value | number number: 0 or more | alpha number: over 0 | beta number: over 0 | cumulative logical: TRUE for the chance of at most this
GAMMA.INV GAMMAINV: the value that stays under a chance of the gamma distribution | chance share: 0 or more, under 1 | alpha number: over 0 | beta number: over 0
GAMMA: the gamma function, a factorial between whole numbers | number number: any but 0 and negative whole numbers
GAMMALN GAMMALN.PRECISE: the natural logarithm of the gamma function | number number: over 0
ERF: the error function, from 0 or between two numbers | lower number: a value | [upper] number: the other end
ERFC: 1 less the error function | lower number: a value
BESSELI: the modified Bessel function of the first kind | number number: where | order number: 0 or more
BESSELJ: the Bessel function of the first kind | number number: where | order number: 0 or more
BESSELK: the modified Bessel function of the second kind | number number: where, over 0 | order number: 0 or more
BESSELY: the Bessel function of the second kind | number number: where, over 0 | order number: 0 or more

Tables with headings
DSUM: adds up a column where conditions are met | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DAVERAGE: mean of a column where conditions are met | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DCOUNT: how many numbers a column has where conditions are met | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DCOUNTA: how many cells of a column are not empty where conditions are met | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DMAX: the most of a column where conditions are met | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DMIN: the least of a column where conditions are met | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DGET: the one value of a column where conditions are met | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DPRODUCT: multiplies a column where conditions are met | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DSTDEV: standard deviation of a column where conditions are met, from a sample | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DSTDEVP: standard deviation of a column where conditions are met, of all there are | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DVAR: variance of a column where conditions are met, from a sample | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them
DVARP: variance of a column where conditions are met, of all there are | table range: with its headings | column value: its heading, or its number from 1 | conditions range: headings, and conditions under them

Number systems
BASE: a number written in another base | number number: 0 or more | base number: 2 to 36 | [digits] number: at least so many
DECIMAL: the number that digits of another base stand for | text text: digits | base number: 2 to 36
BIN2DEC: binary as decimal | digits text: up to 10 binary digits
BIN2HEX: binary as hexadecimal | digits text: up to 10 binary digits | [places] number: at least so many digits
BIN2OCT: binary as octal | digits text: up to 10 binary digits | [places] number: at least so many digits
DEC2BIN: decimal as binary | number number: -512 to 511 | [places] number: at least so many digits
DEC2HEX: decimal as hexadecimal | number number: a whole number | [places] number: at least so many digits
DEC2OCT: decimal as octal | number number: a whole number | [places] number: at least so many digits
HEX2BIN: hexadecimal as binary | digits text: up to 10 hexadecimal digits | [places] number: at least so many digits
HEX2DEC: hexadecimal as decimal | digits text: up to 10 hexadecimal digits
HEX2OCT: hexadecimal as octal | digits text: up to 10 hexadecimal digits | [places] number: at least so many digits
OCT2BIN: octal as binary | digits text: up to 10 octal digits | [places] number: at least so many digits
OCT2DEC: octal as decimal | digits text: up to 10 octal digits
OCT2HEX: octal as hexadecimal | digits text: up to 10 octal digits | [places] number: at least so many digits
BITAND: bits that both have | number whole: 0 or more | other whole: 0 or more
BITOR: bits that either has | number whole: 0 or more | other whole: 0 or more
BITXOR: bits that only one has | number whole: 0 or more | other whole: 0 or more
BITLSHIFT: bits moved to the left | number whole: 0 or more | places whole: how far
BITRSHIFT: bits moved to the right | number whole: 0 or more | places whole: how far

Complex numbers
COMPLEX: a complex number | real number: its real part | imaginary number: its imaginary part | [letter] text: "i" or "j"
IMREAL: the real part | number complex: such as "3+4i"
IMAGINARY: the imaginary part | number complex: such as "3+4i"
IMABS: the distance from 0 | number complex: such as "3+4i"
IMARGUMENT: the angle, in radians | number complex: such as "3+4i"
IMCONJUGATE: the conjugate | number complex: such as "3+4i"
IMSUM: adds up | numbers values: complex numbers or a range …
IMSUB: the difference | number complex: such as "3+4i" | other complex: what is taken off
IMPRODUCT: multiplies | numbers values: complex numbers or a range …
IMDIV: the quotient | number complex: such as "3+4i" | divisor complex: by what
IMPOWER: a complex number to a power | number complex: such as "3+4i" | exponent number: the power
IMSQRT: the square root | number complex: such as "3+4i"
IMEXP: e to a power | number complex: such as "3+4i"
IMLN: the natural logarithm | number complex: such as "3+4i"
IMLOG10: the logarithm to base 10 | number complex: such as "3+4i"
IMLOG2: the logarithm to base 2 | number complex: such as "3+4i"
IMSIN: the sine | number complex: such as "3+4i"
IMCOS: the cosine | number complex: such as "3+4i"
IMTAN: the tangent | number complex: such as "3+4i"
IMCOT: the cotangent | number complex: such as "3+4i"
IMSEC: the secant | number complex: such as "3+4i"
IMCSC: the cosecant | number complex: such as "3+4i"
IMSINH: the hyperbolic sine | number complex: such as "3+4i"
IMCOSH: the hyperbolic cosine | number complex: such as "3+4i"
IMSECH: the hyperbolic secant | number complex: such as "3+4i"
IMCSCH: the hyperbolic cosecant | number complex: such as "3+4i"

Signs as functions
HF.ADD: the sum, as + | number number: any number | other number: any number
HF.MINUS: the difference, as - | number number: any number | other number: what is taken off
HF.MULTIPLY: the product, as * | number number: any number | other number: any number
HF.DIVIDE: the quotient, as / | number number: what is divided | divisor number: by what
HF.POW: a number to a power, as ^ | number number: the base | exponent number: the power
HF.UMINUS: with the other sign, as - before it | number number: any number
HF.UPLUS: as it is, as + before it | number number: any number
HF.UNARY_PERCENT: a hundredth, as % after it | number number: any number
HF.CONCAT: joins two texts, as & | text text: words | other text: words
HF.EQ: whether two are equal, as = | value value: one | other value: the other
HF.NE: whether two are not equal, as <> | value value: one | other value: the other
HF.LT: whether one is less, as < | value value: one | other value: the other
HF.LTE: whether one is less or equal, as <= | value value: one | other value: the other
HF.GT: whether one is more, as > | value value: one | other value: the other
HF.GTE: whether one is more or equal, as >= | value value: one | other value: the other
`;
