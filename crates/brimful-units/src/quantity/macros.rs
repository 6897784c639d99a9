//! What every quantity can do, written once.

/// A newtype with its units, sums, multiples and ratios.
macro_rules! quantity {
    (
        $(#[$doc:meta])* $name:ident {
            $( $(#[$unit_doc:meta])* $from:ident / $read:ident = $multiplier:expr, $divisor:expr; )+
        }
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
        pub struct $name(f64);

        impl $name {
            /// The unit of the number inside, as a key of JSON ends with it.
            pub const SI: &'static str = si_unit!($($read),+);

            /// Nothing at all.
            pub const ZERO: Self = Self(0.0);

            $(
                #[doc = concat!("From a number of the unit that [`Self::", stringify!($read), "`] reads.")]
                #[must_use]
                pub const fn $from(number: f64) -> Self {
                    Self(number * $multiplier / $divisor)
                }

                $(#[$unit_doc])*
                #[must_use]
                pub const fn $read(self) -> f64 {
                    self.0 * $divisor / $multiplier
                }
            )+

            /// The size without its sign.
            #[must_use]
            pub const fn abs(self) -> Self {
                Self(self.0.abs())
            }
        }

        ordered!($name);
        number_in_json!($name, $name::SI);

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                self.0 -= other.0;
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, quantity: $name) -> $name {
                quantity * self
            }
        }

        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }

        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl Sum for $name {
            fn sum<I: Iterator<Item = Self>>(terms: I) -> Self {
                terms.fold(Self::ZERO, Add::add)
            }
        }
    };
}

/// What a quantity can do even where two of them have no sum.
macro_rules! ordered {
    ($name:ident) => {
        impl $name {
            /// Neither infinite nor not a number.
            #[must_use]
            pub const fn is_finite(self) -> bool {
                self.0.is_finite()
            }

            /// A total order, for sorting.
            #[must_use]
            pub fn total_cmp(&self, other: &Self) -> Ordering {
                self.0.total_cmp(&other.0)
            }

            /// The smaller of two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// The larger of two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }
        }
    };
}

/// The first of some units, which is that of SI.
macro_rules! si_unit {
    ($first:ident $(, $other:ident)*) => {
        stringify!($first)
    };
}

/// A quantity in JSON: its number in SI. Its unit is the format in the schema, and ends the key.
macro_rules! number_in_json {
    ($name:ident, $unit:expr) => {
        impl JsonSchema for $name {
            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn inline_schema() -> bool {
                true
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({ "type": "number", "format": $unit })
            }
        }
    };
}

/// `left * right = product`, and both divisions that undo it.
macro_rules! product {
    ($left:ident * $right:ident = $product:ident) => {
        product!(@multiply $left, $right, $product);
        product!(@multiply $right, $left, $product);
        product!(@divide $product, $left, $right);
        product!(@divide $product, $right, $left);
    };
    ($side:ident squared = $product:ident) => {
        product!(@multiply $side, $side, $product);
        product!(@divide $product, $side, $side);
    };
    (@multiply $left:ident, $right:ident, $product:ident) => {
        impl Mul<$right> for $left {
            type Output = $product;
            fn mul(self, right: $right) -> $product {
                $product(self.0 * right.0)
            }
        }
    };
    (@divide $product:ident, $divisor:ident, $quotient:ident) => {
        impl Div<$divisor> for $product {
            type Output = $quotient;
            fn div(self, divisor: $divisor) -> $quotient {
                $quotient(self.0 / divisor.0)
            }
        }
    };
}

pub(super) use {number_in_json, ordered, product, quantity, si_unit};
