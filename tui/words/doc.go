// Package words says what a rehearsal found, in sentences and figures for a handler:
// the same ones on the screen, in the plain mode and in the report.
//
// Chances are whole per cent, lengths 0.1 m (or 0.1 ft on a course in feet), times 0.1 s.
// Text that came from a file is returned with control characters made visible.
package words

// Model is the sentence that every screen and report carries somewhere.
const Model = "Likelihoods from a model, not promises about a dog."

// ModelShort is Model where there is no room.
const ModelShort = "likelihoods from a model"

// Cautions are what anybody who acts on the figures should know.
func Cautions() []string {
	return []string{
		"A model is not a dog: the chances are likelihoods from a model and have not been measured on this team.",
		"They are better at saying which of two plans is safer than how safe either one is.",
		"A clean run here says nothing about the fitness of dog, handler or ground. Walk the course.",
	}
}
