package standing

import (
	"reflect"
	"strconv"
)

// Rounded returns s with every figure rounded to five significant digits, for
// output: more than that nothing here is known to.
func (s Standing) Rounded() Standing {
	// Slices are copied on the way, so that s stays as it is.
	return rounded(reflect.ValueOf(s)).Interface().(Standing)
}

func rounded(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	switch v.Kind() {
	case reflect.Float64:
		x, _ := strconv.ParseFloat(strconv.FormatFloat(v.Float(), 'g', 5, 64), 64)
		out.SetFloat(x)
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() && out.Field(i).CanSet() {
				out.Field(i).Set(rounded(v.Field(i)))
			}
		}
	case reflect.Slice:
		if v.IsNil() {
			return out
		}
		out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		for i := range v.Len() {
			out.Index(i).Set(rounded(v.Index(i)))
		}
	case reflect.Array:
		for i := range v.Len() {
			out.Index(i).Set(rounded(v.Index(i)))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			p := reflect.New(v.Type().Elem())
			p.Elem().Set(rounded(v.Elem()))
			out.Set(p)
		}
	}
	return out
}
