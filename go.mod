module rodsheet

go 1.26.8

require (
	github.com/ajstarks/svgo v0.0.0-20211024235047-1546f124cd8b
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/crillab/gophersat v1.4.0
	github.com/go-fonts/dejavu v0.3.2
	github.com/goccy/go-yaml v1.19.2
	github.com/inconshreveable/mousetrap v1.1.0
	github.com/jung-kurt/gofpdf v1.16.2
	github.com/peterstace/simplefeatures v0.50.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	github.com/spf13/cobra v1.10.2
	github.com/stretchr/testify v1.12.1
	golang.org/x/image v0.47.0
	golang.org/x/text v0.43.0
	gonum.org/v1/gonum v0.16.0
)

require (
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/spf13/pflag v1.0.9 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
)
