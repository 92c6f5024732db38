package standing

import (
	"math"
	"reflect"
)

// Round rounds every figure to five significant digits, for output: more than
// that nothing here is known to.
func (s *Standing) Round() { round(reflect.ValueOf(s).Elem()) }

// round changes v where it stands; times are left alone.
func round(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(significant(v.Float()))
	case reflect.Struct:
		for _, f := range v.Fields() {
			if f.CanSet() {
				round(f)
			}
		}
	case reflect.Slice, reflect.Array:
		switch v.Type().Elem().Kind() {
		case reflect.Struct, reflect.Float64:
			for i := range v.Len() {
				round(v.Index(i))
			}
		}
	case reflect.Pointer:
		if !v.IsNil() {
			round(v.Elem())
		}
	}
}

func significant(x float64) float64 {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	digits := 4 - int(math.Floor(math.Log10(math.Abs(x))))
	if digits < 0 {
		scale := math.Pow10(-digits)
		return math.Round(x/scale) * scale
	}
	scale := math.Pow10(digits)
	return math.Round(x*scale) / scale
}
