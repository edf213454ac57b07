package job

// For the tests outside of the package.
var DemoOrder, SecondOrder = demoOrder, secondOrder
