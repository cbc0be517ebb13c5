# Counts that chance gives a period of n units, after a baseline with count hits or occurrences on so many units:
# the largest r with P(R < r) <= 0.00135 and the smallest with P(R > r) <= 0.00135. Rscript limits.R > limits.csv (R 4.2.2)
bb <- function(n,x,N,t=0.00135){ a<-x+.5; b<-N-x+.5; d <- exp(lchoose(n,0:n)+lbeta(0:n+a,n-(0:n)+b)-lbeta(a,b)); F<-cumsum(d); S<-rev(cumsum(rev(d)))
 below <- c(0,F[1:n]); above <- c(S[2:(n+1)],0)
 c(max(which(below<=t))-1, min(which(above<=t))-1) }
nb <- function(n,x,N,t=0.00135){ size<-x+.5; prob<-N/(N+n); r<-0:(20*(x+10)*max(1,n/N)+200)
 below <- pnbinom(r-1,size,prob); above <- pnbinom(r,size,prob,lower.tail=FALSE)
 c(max(which(below<=t))-1, min(which(above<=t))-1) }
cases <- rbind(c(40,0,480),c(40,12,120),c(9,1,100),c(100,50,100),c(20,20,20),c(124,231,1000),c(1,0,1),c(500,3,2000),c(5000,300,10000),c(30,0,1),c(1000,1,3))
cat("kind,n,count,units,low,high\n")
for(i in 1:nrow(cases)){ z<-bb(cases[i,1],cases[i,2],cases[i,3]); cat(sprintf("beta_binomial,%d,%d,%d,%d,%d\n",cases[i,1],cases[i,2],cases[i,3],z[1],z[2])) }
for(i in 1:nrow(cases)){ z<-nb(cases[i,1],cases[i,2],cases[i,3]); cat(sprintf("negative_binomial,%d,%d,%d,%d,%d\n",cases[i,1],cases[i,2],cases[i,3],z[1],z[2])) }
