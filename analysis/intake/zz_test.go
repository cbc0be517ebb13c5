package intake
import ("testing";"time";"fmt")
func TestZZ(t *testing.T){
 h:=newHistory(t)
 for range 2 { a:=time.Now()
 imported(t,h,Options{Files: []string{foreignList}, Profile: foreignProfile})
 fmt.Println("TOTAL",time.Since(a)) }
}
