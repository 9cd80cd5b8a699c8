// Package hazard reckons what a bottle, a powder or a bath does to people and water, out of what its label or safety data
// sheet declares; which gloves; and what is special for some persons. It gives codes, figures and findings, never
// sentences. All of it is an estimate: the supplier's safety data sheet rules.
//
//	r, err := hazard.Classify(hazard.Mixture{Ingredients: []hazard.Ingredient{{
//		Name: "acetic acid", Share: hazard.Share{Low: 25, High: 28},
//	}}})
//	// r.Classes: Skin Corr. 1B; r.Codes: H314; r.Signal: Danger; r.Reckoning: how it came about
//
// # Rules
//
// Shares are mass per cent of the whole. They are ranges; the result is that of their worse ends, and Milder is that
// of the others. A specific limit of a substance goes before the generic one: in a sum, its share is weighed by generic ÷ specific
// limit. A sum or share that equals a limit reaches it.
//
//	skin         Σ corrosive ≥ 5 % burns; 10 × Σ corrosive + Σ irritant ≥ 10 % irritates
//	eyes         Σ (corrosive + damaging) ≥ 3 % damages; 10 × that + Σ irritant ≥ 10 % irritates
//	swallowed …  100 ÷ ATE = Σ share ÷ ATE; what is of unknown toxicity is left out of the 100 above 10 %
//	allergy      each alone: 1 %, 1A 0.1 %; named (EUH208) from a tenth of that on
//	genes, cancer   each alone: categories 1 from 0.1 %, 2 from 1 %
//	birth        each alone: 1 from 0.3 %, 2 from 3 %; in the US and Canada both from 0.1 %
//	organs       each alone: 10 % (1 to 10 % of the severer gives the milder); H335 and H336 20 %
//	water        Σ M × acute 1 ≥ 25 %; chronic 1: the same; 2: ten times; 3: a hundred times; 4: all, without M
//
// An ingredient counts from 1 % on, or from its specific limit where that is lower; in water from 0.1 % ÷ M; a toxic one of
// categories 1 to 3 from 0.1 % on (from memory). Fire and oxidising are never summed: they need a test; they are told from a
// substance's own limit on, or from 90 % of it. Skin Corr. 1 takes in Eye Dam. 1, which is not told beside it.
//
// The pH rule (at most 2, at least 11.5) stands apart in PHRule, as acid or alkali reserve may speak against it; it changes no
// class.
//
// Sources: CLP, Regulation (EC) 1272/2008, Annex I, by way of the pages named beside each limit in the code; the skin's
// subcategories after New Zealand's guide; the summation in water after ADR 2017. The limits for sensitisers and the eyes'
// irritation were seen in program code only.
//
// # Limits of validity
//
// What is not declared counts as water. Respiratory sensitisers' limits and whatever a row of the table of substances
// marks are from memory. Only the limits for harm to birth are told apart by law; harm to water is reckoned under every law,
// though the workplace rules of the US and Canada leave it out (from memory). Corrosives to which additivity may not
// apply are named (NonAdditive), not judged. No concentration in air is computed: no source gives how much comes off.
package hazard
